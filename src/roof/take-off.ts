import { inRange } from '../units/index.ts';
import { edgeAllowancesM, layOutSheets } from './layout.ts';
import {
  LAP_M,
  PERIMETER_STRIP_M,
  ROLL_LENGTH_M,
  SHEET_WIDTHS_M,
  UPSTAND_USUAL_MM,
} from './practice.ts';
import type { LayoutChoices } from './sheets/types.ts';
import type {
  BayEdgeKind,
  EdgeAllowances,
  EdgeSide,
  Lap,
  RoofPart,
  SheetBalance,
  SheetPiece,
  TakeOff,
} from './types.ts';

export interface TakeOffOptions {
  /** Roll widths to choose from [m], each 0.5..20. */
  readonly sheetWidthsM?: readonly number[];
  /** Width of a lap [m], 0.05..0.3. */
  readonly lapM?: number;
  /** Longest piece off a roll [m], 5..200. */
  readonly rollLengthM?: number;
  /** What the user has turned, moved or fixed, by area of a drawn roof. */
  readonly choices?: Readonly<Record<string, LayoutChoices>>;
}

const SIDES: readonly EdgeSide[] = ['low', 'high', 'left', 'right'];
const CORNERS: readonly (readonly [EdgeSide, EdgeSide])[] = [
  ['low', 'left'],
  ['low', 'right'],
  ['high', 'left'],
  ['high', 'right'],
];

/** Length of one side of the rectangle [m]. */
export function sideLengthM(part: RoofPart, side: EdgeSide): number {
  return side === 'low' || side === 'high' ? part.lengthM : part.widthM;
}

/** Pairs of sides whose corner takes a patch: an abutment meeting any other outer edge. */
export function cornersToPatch(part: RoofPart): readonly (readonly [EdgeSide, EdgeSide])[] {
  return CORNERS.filter(([a, b]) => {
    const kinds = [part.edges[a], part.edges[b]];
    return kinds.includes('abutment') && kinds.every(isOuter);
  });
}

function isOuter(kind: BayEdgeKind): boolean {
  return kind !== 'next-bay' && kind !== 'earlier-bay';
}

/**
 * Quantities of a rectangular roof or of one day's part of it. Sizes are taken on the roof surface, so
 * the fall does not enter.
 * @param part    lengthM 0.5..200, widthM 0.5..100, upstandMm 0..1000
 * @param options roll widths, lap and roll length; common practice where left out
 * @returns net areas and lengths, sheets as cut, laps, and what is bought
 * @throws RangeError on a size outside its range, NaN included
 * @source rectangle geometry; allowances from practice.ts (common practice). The perimeter strip is
 *   measured over the laps that cross it (0.015 m2 each).
 */
export function takeOff(part: RoofPart, options: TakeOffOptions = {}): TakeOff {
  const widths = options.sheetWidthsM ?? SHEET_WIDTHS_M;
  const lapM = inRange('lapM', options.lapM ?? LAP_M, 0.05, 0.3);
  const rollLengthM = inRange('rollLengthM', options.rollLengthM ?? ROLL_LENGTH_M, 5, 200);
  inRange('sheetWidthsM.length', widths.length, 1, 12);
  for (const width of widths) inRange('sheetWidthsM', width, 0.5, 20);
  const lengthM = inRange('lengthM', part.lengthM, 0.5, 200);
  const widthM = inRange('widthM', part.widthM, 0.5, 100);
  inRange('upstandMm', part.upstandMm, 0, 1000);

  const over = edgeAllowancesM(part, lapM);
  const layout = layOutSheets(part, { sheetWidthsM: widths, lapM, rollLengthM });
  const joins = joinLaps(part, over, lapM, layout.sheets, layout.laps.length);
  const laps = [...layout.laps, ...joins];

  const strip = inset(part, (kind) => (isOuter(kind) ? PERIMETER_STRIP_M : 0));
  const field = inset(part, (kind) => {
    if (isOuter(kind)) return PERIMETER_STRIP_M;
    return kind === 'earlier-bay' ? lapM : 0;
  });
  const lapsInFieldM2 = layout.laps.reduce((sum, lap) => sum + clippedM2(lap, field), 0);
  const areaM2 = lengthM * widthM;
  const along = (kind: BayEdgeKind): number =>
    SIDES.reduce((sum, s) => sum + (part.edges[s] === kind ? sideLengthM(part, s) : 0), 0);
  const abutmentM = along('abutment');

  return {
    areaM2,
    fieldM2: Math.max(0, rectM2(field) - lapsInFieldM2),
    perimeterStripM2: areaM2 - rectM2(strip),
    eavesM: along('eaves'),
    vergeM: along('verge'),
    abutmentM,
    upstandM2: (abutmentM * part.upstandMm) / 1000,
    cornerPatches: cornersToPatch(part).length,
    lapM: laps.reduce((sum, lap) => sum + lap.lengthM, 0),
    sheets: layout.sheets,
    laps,
    tJoints: countTJoints(laps),
    allowancesM: over,
    balance: balanceOf(part, over, layout.figures),
    warnings: warningsFor(part, abutmentM),
    outlets: part.outlets,
    pipes: part.pipes,
    rooflights: part.rooflights,
  };
}

interface Inset {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

/** The rectangle left when each side is moved in; a side may meet its opposite but not pass it. */
function inset(part: RoofPart, byM: (kind: BayEdgeKind) => number): Inset {
  const x0 = Math.min(byM(part.edges.left), part.lengthM);
  const y0 = Math.min(byM(part.edges.low), part.widthM);
  const x1 = Math.max(x0, part.lengthM - byM(part.edges.right));
  const y1 = Math.max(y0, part.widthM - byM(part.edges.high));
  return { x0, x1, y0, y1 };
}

const rectM2 = (r: Inset): number => (r.x1 - r.x0) * (r.y1 - r.y0);

function clippedM2(lap: Lap, to: Inset): number {
  const x = Math.min(lap.xM + lap.sizeXM, to.x1) - Math.max(lap.xM, to.x0);
  const y = Math.min(lap.yM + lap.sizeYM, to.y1) - Math.max(lap.yM, to.y0);
  return Math.max(0, x) * Math.max(0, y);
}

function joinLaps(
  part: RoofPart,
  over: EdgeAllowances,
  lapM: number,
  sheets: readonly SheetPiece[],
  count: number,
): Lap[] {
  const alongM = part.lengthM + over.left + over.right;
  const upM = part.widthM + over.low + over.high;
  return SIDES.filter((side) => part.edges[side] === 'earlier-bay').map((side, i): Lap => {
    const level = side === 'low' || side === 'high';
    const xM = side === 'right' ? part.lengthM - lapM : level ? -over.left : 0;
    const yM = side === 'high' ? part.widthM - lapM : level ? 0 : -over.low;
    return {
      number: count + i + 1,
      kind: 'join',
      lengthM: level ? alongM : upM,
      sheets: sheets.filter((s) => sheetTouches(s, part, side)).map((s) => s.number),
      xM,
      yM,
      sizeXM: level ? alongM : lapM,
      sizeYM: level ? lapM : upM,
    };
  });
}

/** True where a sheet, or a stretch of it, reaches a side of the net roof. */
export function sheetTouches(
  sheet: Pick<SheetPiece, 'xM' | 'yM' | 'lengthM' | 'widthM' | 'runs'>,
  part: RoofPart,
  side: EdgeSide,
): boolean {
  const up = sheet.runs === 'up-the-fall';
  const toX = sheet.xM + (up ? sheet.widthM : sheet.lengthM);
  const toY = sheet.yM + (up ? sheet.lengthM : sheet.widthM);
  switch (side) {
    case 'left':
      return sheet.xM <= 1e-9;
    case 'right':
      return toX >= part.lengthM - 1e-9;
    case 'low':
      return sheet.yM <= 1e-9;
    case 'high':
      return toY >= part.widthM - 1e-9;
  }
}

/** Three sheets meet where an end lap runs into a side lap, or a side lap into a join. */
function countTJoints(laps: readonly Lap[]): number {
  const shares = (a: Lap, b: Lap): boolean => a.sheets.every((n) => b.sheets.includes(n));
  let count = 0;
  const sides = laps.filter((lap) => lap.kind === 'side');
  for (const end of laps.filter((lap) => lap.kind === 'end')) {
    count += sides.filter((side) => shares(end, side)).length;
  }
  for (const join of laps.filter((lap) => lap.kind === 'join')) {
    count += Math.max(0, join.sheets.length - 1);
  }
  return count;
}

function balanceOf(
  part: RoofPart,
  over: EdgeAllowances,
  figures: { readonly boughtM2: number; readonly cutM2: number; readonly lapM2: number },
): SheetBalance {
  const sum = (kinds: readonly BayEdgeKind[], depthM: (side: EdgeSide) => number): number =>
    SIDES.reduce(
      (total, s) => total + (kinds.includes(part.edges[s]) ? sideLengthM(part, s) * depthM(s) : 0),
      0,
    );
  const upstandM = part.upstandMm / 1000;
  return {
    ...figures,
    coveredM2: (part.lengthM + over.left + over.right) * (part.widthM + over.low + over.high),
    overhangM2: sum(['eaves', 'verge'], (s) => over[s]),
    turnUpM2: sum(['abutment'], () => upstandM),
    trimM2: sum(['abutment'], (s) => over[s] - upstandM),
    nextBayM2: sum(['next-bay'], (s) => over[s]),
    cornersM2: CORNERS.reduce((total, [a, b]) => total + over[a] * over[b], 0),
    wastePct: 100 * (1 - figures.cutM2 / figures.boughtM2),
  };
}

function warningsFor(part: RoofPart, abutmentM: number): string[] {
  const warnings: string[] = [];
  if (abutmentM > 0 && part.upstandMm < UPSTAND_USUAL_MM) {
    warnings.push(
      `Upstand is ${part.upstandMm} mm; ${UPSTAND_USUAL_MM} mm or more is usual. Kept as given.`,
    );
  }
  const kinds = Object.values(part.edges);
  // Of a bay this cannot be said: its water may leave over the next one.
  if (kinds.every((kind) => isOuter(kind) && kind !== 'eaves') && part.outlets === 0) {
    warnings.push('No eaves and no outlet: nothing takes the water off this roof.');
  }
  return warnings;
}
