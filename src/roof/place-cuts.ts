import { extentM } from './outline/bands.ts';
import { featureOutline, isRound } from './outline/features.ts';
import type { Feature, FeatureKind, OutlinePiece, Point } from './outline/types.ts';
import { dot, edgeDistanceM, isInside, leftOf } from './outline/vectors.ts';

/** A cut keeps this far off what stands on the roof [m]; common practice. */
const CLEAR_OF_FEATURE_M = 0.3;
/** Share of a band by which a cut may move for that. */
const MOST_SHIFT = 0.25;
/** Places tried on either side of an even cut. */
const TRIES = 5;
/** What a cut through each costs against a metre that it is moved. */
const THROUGH_COST: Readonly<Record<FeatureKind, number>> = {
  rooflight: 1000,
  outlet: 100,
  pipe: 100,
};

export interface CutQuestion {
  readonly pieces: readonly OutlinePiece[];
  /** Unit vector that the bands follow each other along. */
  readonly direction: Point;
  /** Number of bands, 1 or more. */
  readonly count: number;
  /** What cuts keep clear of, as it lies on the roof. */
  readonly clearOf: readonly Feature[];
  /** Largest band [m2]; even bands that are larger already are kept. */
  readonly mostM2: number;
}

export interface CutPlaces {
  /** Distances along the direction from the drawing's origin, ascending [m]. */
  readonly atM: readonly number[];
  /** What they run through or too near to all the same. */
  readonly through: readonly Feature[];
}

interface Place {
  readonly atM: number;
  readonly belowM2: number;
  readonly cost: number;
  readonly through: readonly Feature[];
}

/**
 * Cuts into bands of even area, moved off what stands on the roof as far as no band grows over the
 * largest: of all moves the one with the least in its way, then the shortest.
 */
export function placeCuts(q: CutQuestion): CutPlaces {
  const { pieces, direction, count } = q;
  if (count <= 1) return { atM: [], through: [] };
  const below = areaBelow(pieces, direction);
  const ends = pieces.map((piece) => extentM(piece, direction));
  const fromM = Math.min(...ends.map((end) => end.fromM));
  const toM = Math.max(...ends.map((end) => end.toM));
  const totalM2 = below(toM);
  const mostM2 = Math.max(q.mostM2, (totalM2 / count) * (1 + 1e-6));
  const blocks = q.clearOf.filter((f) => standsOn(f, pieces)).map((f) => blockOf(f, direction));
  const bandM = (toM - fromM) / count;
  const choices = Array.from({ length: count - 1 }, (_, i) => {
    const evenM = placeOf(below, (totalM2 * (i + 1)) / count, fromM, toM);
    return placesNear(evenM, bandM * MOST_SHIFT, blocks).map(
      (atM): Place => ({ ...passing(atM, evenM, blocks), belowM2: below(atM) }),
    );
  });
  const best = cheapest(choices, totalM2, mostM2);
  return {
    atM: best.map(({ atM }) => atM),
    through: [...new Set(best.flatMap(({ through }) => through))],
  };
}

/** Least sum of costs over cuts in order, no band over the largest: the best way to each place in turn. */
function cheapest(choices: readonly Place[][], totalM2: number, mostM2: number): Place[] {
  interface Way {
    readonly place: Place;
    readonly cost: number;
    readonly before: Way | null;
  }
  let ways: Way[] = choices[0]!
    .filter(({ belowM2 }) => belowM2 <= mostM2)
    .map((place) => ({ place, cost: place.cost, before: null }));
  for (const places of choices.slice(1)) {
    const next: Way[] = [];
    for (const place of places) {
      let best: Way | null = null;
      for (const way of ways) {
        const bandM2 = place.belowM2 - way.place.belowM2;
        if (bandM2 > mostM2 || bandM2 <= 0) continue;
        if (best === null || way.cost < best.cost) best = way;
      }
      if (best !== null) next.push({ place, cost: best.cost + place.cost, before: best });
    }
    ways = next;
  }
  const ends = ways.filter(({ place }) => totalM2 - place.belowM2 <= mostM2);
  // Even places are always among the choices, and even bands are never over the largest.
  let at: Way | null = ends.reduce((a, b) => (b.cost < a.cost ? b : a));
  const found: Place[] = [];
  for (; at !== null; at = at.before) found.unshift(at.place);
  return found;
}

interface Block {
  readonly feature: Feature;
  readonly fromM: number;
  readonly toM: number;
}

function blockOf(feature: Feature, direction: Point): Block {
  const middleM = dot(feature.at, direction);
  const halfM = isRound(feature)
    ? feature.sizeM[0] / 2
    : Math.max(...featureOutline(feature).map((p) => Math.abs(dot(p, direction) - middleM)));
  const offM = halfM + CLEAR_OF_FEATURE_M;
  return { feature, fromM: middleM - offM, toM: middleM + offM };
}

function standsOn(feature: Feature, pieces: readonly OutlinePiece[]): boolean {
  const reachM = Math.hypot(...feature.sizeM) / 2 + CLEAR_OF_FEATURE_M;
  return pieces.some(
    ({ points }) => isInside(feature.at, points) || edgeDistanceM(feature.at, points) < reachM,
  );
}

function passing(atM: number, evenM: number, blocks: readonly Block[]): Omit<Place, 'belowM2'> {
  const through = blocks
    .filter(({ fromM, toM }) => atM > fromM + 1e-9 && atM < toM - 1e-9)
    .map(({ feature }) => feature);
  const inWay = through.reduce((sum, { kind }) => sum + THROUGH_COST[kind], 0);
  return { atM, through, cost: inWay + Math.abs(atM - evenM) };
}

/** The even place, steps to either side, and where what stands near it begins and ends. */
function placesNear(evenM: number, mostM: number, blocks: readonly Block[]): number[] {
  const steps = Array.from({ length: TRIES }, (_, k) => ((k + 1) * mostM) / TRIES);
  const ends = blocks
    .flatMap(({ fromM, toM }) => [fromM, toM])
    .filter((m) => Math.abs(m - evenM) <= mostM);
  return [evenM, ...steps.flatMap((m) => [evenM - m, evenM + m]), ...ends];
}

/** Area of the pieces up to a distance along a direction, by Green's theorem: what is beyond is cut off. */
function areaBelow(pieces: readonly OutlinePiece[], direction: Point): (atM: number) => number {
  const side = leftOf(direction);
  const edges = pieces.flatMap(({ points }) =>
    points.map((p, i) => {
      const q = points[(i + 1) % points.length]!;
      return { a: dot(p, direction), b: dot(q, direction), acrossM: dot(q, side) - dot(p, side) };
    }),
  );
  return (atM) => edges.reduce((sum, { a, b, acrossM }) => sum + acrossM * meanBelow(a, b, atM), 0);
}

/** Mean of what runs evenly from a to b, where everything over a limit counts as the limit. */
function meanBelow(a: number, b: number, limit: number): number {
  const [low, high] = a < b ? [a, b] : [b, a];
  if (high <= limit) return (a + b) / 2;
  if (low >= limit) return limit;
  const share = (limit - low) / (high - low);
  return limit - ((limit - low) * share) / 2;
}

function placeOf(
  below: (atM: number) => number,
  wantedM2: number,
  fromM: number,
  toM: number,
): number {
  let [low, high] = [fromM, toM];
  for (let k = 0; k < 60; k += 1) {
    const middle = (low + high) / 2;
    if (below(middle) < wantedM2) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
