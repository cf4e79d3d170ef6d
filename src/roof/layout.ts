import { type CourseLayout, layCourses } from './courses.ts';
import { NARROWEST_COURSE_M, NIGHT_SEAL_STRIP_M, OVERHANG_M, UPSTAND_TRIM_M } from './practice.ts';
import type { BayEdgeKind, EdgeAllowances, Lap, RoofPart, SheetPiece } from './types.ts';

export interface LayoutOptions {
  readonly sheetWidthsM: readonly number[];
  readonly lapM: number;
  readonly rollLengthM: number;
}

export interface SheetLayout {
  readonly sheets: readonly SheetPiece[];
  /** Laps between the part's own sheets. */
  readonly laps: readonly Lap[];
  readonly figures: Omit<CourseLayout, 'courses'>;
}

/** What the sheet is cut over the net size at an edge. */
export function edgeAllowancesM(part: RoofPart, lapM: number): EdgeAllowances {
  const of = (kind: BayEdgeKind): number => {
    switch (kind) {
      case 'eaves':
      case 'verge':
        return OVERHANG_M;
      case 'abutment':
        return part.upstandMm / 1000 + UPSTAND_TRIM_M;
      case 'next-bay':
        return lapM + NIGHT_SEAL_STRIP_M;
      case 'earlier-bay':
        return 0;
    }
  };
  const { low, high, left, right } = part.edges;
  return { low: of(low), high: of(high), left: of(left), right: of(right) };
}

/**
 * Sheets for a rectangular part: least lap length, then least offcut. A tie goes to sheets along the
 * low edge, whose laps lie across the fall with the upper sheet over the lower.
 */
export function layOutSheets(part: RoofPart, options: LayoutOptions): SheetLayout {
  const over = edgeAllowancesM(part, options.lapM);
  const alongM = part.lengthM + over.left + over.right;
  const upM = part.widthM + over.low + over.high;
  const narrowest = (a: number, b: number): number => NARROWEST_COURSE_M + Math.max(a, b);
  const along = layCourses({
    ...options,
    runM: alongM,
    spanM: upM,
    narrowestM: narrowest(over.low, over.high),
  });
  const up = layCourses({
    ...options,
    runM: upM,
    spanM: alongM,
    narrowestM: narrowest(over.left, over.right),
  });
  const lapDiffM = up.lapM - along.lapM;
  const upIsBetter = Math.abs(lapDiffM) > 1e-6 ? lapDiffM < 0 : up.boughtM2 < along.boughtM2 - 1e-6;
  return place(upIsBetter ? up : along, upIsBetter, over, options.lapM);
}

interface Rect {
  readonly xM: number;
  readonly yM: number;
  readonly sizeXM: number;
  readonly sizeYM: number;
}

function place(layout: CourseLayout, up: boolean, over: EdgeAllowances, lapM: number): SheetLayout {
  const rect = (runAtM: number, runM: number, spanAtM: number, spanM: number): Rect =>
    up
      ? { xM: spanAtM - over.left, yM: runAtM - over.low, sizeXM: spanM, sizeYM: runM }
      : { xM: runAtM - over.left, yM: spanAtM - over.low, sizeXM: runM, sizeYM: spanM };
  const sheets: SheetPiece[] = [];
  const laps: Lap[] = [];
  let below: number[] = [];
  const last = layout.courses.length - 1;
  layout.courses.forEach((course, c) => {
    const numbers: number[] = [];
    course.pieces.forEach((piece, p) => {
      const at = rect(piece.startM, piece.lengthM, course.offsetM, course.widthM);
      const number = sheets.length + 1;
      sheets.push({
        number,
        lengthM: piece.lengthM,
        widthM: course.widthM,
        runs: up ? 'up-the-fall' : 'along-the-low-edge',
        rollWidthM: course.rollWidthM,
        xM: at.xM,
        yM: at.yM,
      });
      numbers.push(number);
      if (p === 0) return;
      // The side laps already cover the ends of an end lap; its own rectangle stops short of them.
      const fromM = c === 0 ? 0 : lapM;
      const toM = c === last ? course.widthM : course.widthM - lapM;
      laps.push({
        number: laps.length + 1,
        kind: 'end',
        lengthM: course.widthM,
        sheets: [number - 1, number],
        ...rect(piece.startM, lapM, course.offsetM + fromM, toM - fromM),
      });
    });
    if (c > 0) {
      const end = course.pieces[course.pieces.length - 1]!;
      const runM = end.startM + end.lengthM;
      laps.push({
        number: laps.length + 1,
        kind: 'side',
        lengthM: runM,
        sheets: [...below, ...numbers],
        ...rect(0, runM, course.offsetM, lapM),
      });
    }
    below = numbers;
  });
  const { courses: _courses, ...figures } = layout;
  return { sheets, laps, figures };
}
