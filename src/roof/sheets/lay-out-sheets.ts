import { inRange } from '../../units/index.ts';
import type { Point } from '../outline/types.ts';
import { LAP_M, NARROWEST_COURSE_M, ROLL_LENGTH_M, SHEET_WIDTHS_M } from '../practice.ts';
import { balanceOf } from './balance.ts';
import { cutCourses } from './cut-courses.ts';
import { cutList } from './cut-list.ts';
import { type Frame, frameFor, fromOtherSide, lineDeg, rectCorners } from './frame.ts';
import { directionsToTry, type Ground, groundOf, isSquareTo } from './ground.ts';
import { joinLaps, lapsOf } from './laps.ts';
import { END_LAP_STAGGER_M, LAYOUT_WEIGHTS } from './rules.ts';
import { type CourseSearch, searchCourses } from './search-courses.ts';
import { areaIn } from './slabs.ts';
import { bandCost, type Strips, stripsOf } from './strips.ts';
import type {
  LayoutChoices,
  LayoutFigures,
  LayoutWeights,
  OutlineLayout,
  RollOffer,
  Sheet,
  SheetPart,
  SheetQuestion,
} from './types.ts';

export interface OutlineSheetOptions {
  /** 1..12 of them, widths 0.5..20 m, lengths 5..200 m, no two of one width. */
  readonly rolls?: readonly RollOffer[];
  /** Side laps [m], 0.05..0.3. */
  readonly lapM?: number;
  /** End laps [m], 0.05..0.3; as side laps where left out. */
  readonly endLapM?: number;
  /** Least distance between end laps of neighbouring courses [m], 0..5. */
  readonly staggerM?: number;
  readonly weights?: Partial<LayoutWeights>;
  readonly choices?: LayoutChoices;
  readonly access?: Point | null;
}

/**
 * Sheets for a roof area, or a day's part of one, of any outline: courses off the rolls on offer in the
 * direction, position and widths with the least weighed sum of sheet, laps and awkward places.
 * Sizes are taken as they lie on the roof surface.
 * @param part    a simple counter-clockwise outline, one edge for each point
 * @param options what is on offer, laps, weights, and what the user has turned, shifted or fixed
 * @returns sheets in working order, laps, cut list, what to buy, and where every square metre goes
 * @throws RangeError on a size outside its range (NaN included), or fixed sheets that leave no layout
 * @source distances and weights are common practice, see docs/sheet-layout.md; the search is exact over
 *   course positions where `searchedAll`
 */
export function layOutOutlineSheets(
  part: SheetPart,
  options: OutlineSheetOptions = {},
): OutlineLayout {
  const question = checked(part, options);
  const ground = groundOf(part, question.lapM);
  const turned = question.choices.rollsRunDeg;
  const directions = turned === undefined ? directionsToTry(ground, part) : [turned];
  let best: OutlineLayout | null = null;
  let limit = Number.POSITIVE_INFINITY;
  let searchedAll = true;
  for (const frame of directions.flatMap((deg) => framesFor(deg, ground, question))) {
    const seen = stripsOf(ground, question, frame);
    for (const rolls of rollSets(seen.rolls)) {
      const strips = { ...seen, rolls };
      const found = searchCourses(strips, limit);
      searchedAll &&= found.searchedAll;
      if (found.courses === null) continue;
      const layout = finish(ground, strips, found);
      // What is tried first keeps a tie: along the main edge, all rolls.
      if (best === null || layout.figures.cost < best.figures.cost - 1e-6) {
        best = layout;
        limit = layout.figures.cost + 1e-6;
      }
    }
  }
  if (best === null) {
    throw new RangeError(
      'no layout keeps these fixed sheets: their courses leave a gap of the wrong width',
    );
  }
  return { ...best, searchedAll };
}

/** On a slanting outline it can matter from which side courses start; where water does not say, both are tried. */
function framesFor(deg: number, ground: Ground, { part, access, choices }: SheetQuestion): Frame[] {
  const frame = frameFor(deg, part, access === null ? null : towards(ground, access));
  const free = access === null && choices.shiftM === undefined && choices.sheets === undefined;
  const other = free && !isSquareTo(ground, deg) ? fromOtherSide(frame, part) : null;
  return other === null ? [frame] : [frame, other];
}

/** All rolls together, and each by itself: one width may fill whole rolls better. */
function rollSets(rolls: readonly RollOffer[]): (readonly RollOffer[])[] {
  return rolls.length < 2 ? [rolls] : [rolls, ...rolls.map((roll) => [roll])];
}

function towards(ground: Ground, access: Point): Point {
  const n = ground.points.length;
  const x = ground.points.reduce((sum, p) => sum + p[0], 0) / n;
  const y = ground.points.reduce((sum, p) => sum + p[1], 0) / n;
  return [access[0] - x, access[1] - y];
}

function checked(part: SheetPart, options: OutlineSheetOptions): SheetQuestion {
  const n = inRange('points.length', part.points.length, 3, 1000);
  inRange('edges.length', part.edges.length, n, n);
  for (const [x, y] of part.points) {
    inRange('x', x, -1e4, 1e4);
    inRange('y', y, -1e4, 1e4);
  }
  for (const { upstandMm, runOnM } of part.edges) {
    inRange('upstandMm', upstandMm, 0, 2000);
    inRange('runOnM', runOnM ?? 0, 0, 1);
  }
  inRange('fallDeg', part.fallDeg, 0, 60);
  inRange('fallPlanDeg', part.fallPlanDeg, -360, 360);
  const rolls =
    options.rolls ?? SHEET_WIDTHS_M.map((widthM) => ({ widthM, lengthM: ROLL_LENGTH_M }));
  inRange('rolls.length', rolls.length, 1, 12);
  for (const { widthM, lengthM } of rolls) {
    inRange('roll widthM', widthM, 0.5, 20);
    inRange('roll lengthM', lengthM, 5, 200);
  }
  inRange('different roll widths', new Set(rolls.map((r) => r.widthM)).size, rolls.length, 12);
  const lapM = inRange('lapM', options.lapM ?? LAP_M, 0.05, 0.3);
  const weights = { ...LAYOUT_WEIGHTS, ...options.weights };
  for (const [name, value] of Object.entries(weights)) inRange(`weights.${name}`, value, 0, 1e6);
  const choices = options.choices ?? {};
  if (choices.rollsRunDeg !== undefined) inRange('rollsRunDeg', choices.rollsRunDeg, -360, 360);
  if (choices.shiftM !== undefined) {
    const widest = Math.max(...rolls.map((r) => r.widthM));
    inRange('shiftM', choices.shiftM, 0, widest - lapM - NARROWEST_COURSE_M);
  }
  if ((choices.sheets?.length ?? 0) > 0 && choices.rollsRunDeg === undefined) {
    throw new RangeError(
      'choices.sheets are given without choices.rollsRunDeg; fix the direction too',
    );
  }
  return {
    part,
    rolls,
    lapM,
    endLapM: inRange('endLapM', options.endLapM ?? lapM, 0.05, 0.3),
    staggerM: inRange('staggerM', options.staggerM ?? END_LAP_STAGGER_M, 0, 5),
    weights,
    choices,
    access: options.access ?? null,
  };
}

function finish(ground: Ground, strips: Strips, found: CourseSearch): OutlineLayout {
  const { question, frame, slabs } = strips;
  const { courses, notes } = cutCourses(strips, found.courses!);
  const sheets: Sheet[] = [];
  courses.forEach(({ start, end, roll, pieces }, c) => {
    for (const [from, to] of pieces) {
      sheets.push({
        number: sheets.length + 1,
        course: c + 1,
        startM: start,
        widthM: end - start,
        rollWidthM: roll.widthM,
        fromM: from,
        toM: to,
        lengthM: to - from,
        corners: rectCorners(frame, from, to, start, end),
        shapeM2: areaIn(slabs, from, to, start, end),
      });
    }
  });
  const own = lapsOf(strips, courses, sheets);
  const joins = joinLaps(ground, strips, sheets, own.laps.length);
  const { rolls, orders } = cutList(sheets, question.rolls);
  const length = (kind: 'side' | 'end'): number =>
    own.laps.reduce((sum, lap) => sum + (lap.kind === kind ? lap.lengthM : 0), 0);
  const { weights } = question;
  const awkward = courses
    .slice(1)
    .map(({ start }) => bandCost(strips, start))
    .reduce((sum, band) => sum + band.cost - band.lengthM * weights.lapPerM, 0);
  const [sideLapM, endLapM] = [length('side'), length('end')];
  const runOffM2 = sheets.reduce((sum, s) => sum + s.lengthM * s.rollWidthM, 0);
  const boughtM2 = orders.reduce((sum, order) => sum + order.areaM2, 0);
  const longestRestM2 = Math.max(...rolls.map((r) => r.restM * r.widthM));
  const rollRestM2 = Math.max(0, boughtM2 - runOffM2 - longestRestM2);
  const tJoints = [...own.tJoints, ...joins.tJoints];
  const figures: LayoutFigures = {
    lapM: sideLapM + endLapM,
    sideLapM,
    endLapM,
    joinM: joins.joinM,
    runOffM2,
    rollRestM2,
    sheets: sheets.length,
    tJoints: tJoints.length,
    cost:
      runOffM2 * weights.sheet +
      rollRestM2 * weights.rollRest +
      (sideLapM + endLapM) * weights.lapPerM +
      own.tJoints.length * weights.tJoint +
      sheets.length * weights.piece +
      awkward,
  };
  const awkwardNotes = awkward > 1e-9 ? [AWKWARD] : [];
  return {
    rollsRunDeg: lineDeg(...frame.along),
    axes: frame,
    sheets,
    laps: [...own.laps, ...joins.laps],
    tJoints,
    rolls,
    orders,
    balance: balanceOf(ground, strips, question.part, sheets, own.lapM2, rolls),
    figures,
    covered: ground.region.loops,
    notes: [...notes, ...awkwardNotes],
    searchedAll: found.searchedAll,
  };
}

const AWKWARD =
  'A side lap is close to an edge, a corner or an outlet: every other layout tried costs more.';
