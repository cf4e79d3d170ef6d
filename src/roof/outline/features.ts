import type { Feature, Point } from './types.ts';
import {
  distanceM,
  isInside,
  leftOf,
  nearestOn,
  segmentsMeet,
  towards,
  turned,
} from './vectors.ts';

/** Outlets and pipes are round, rooflights rectangular. */
export const isRound = (feature: Pick<Feature, 'kind'>): boolean => feature.kind !== 'rooflight';

/** Corners of a rectangular feature on the drawing, counter-clockwise. */
export function featureOutline(feature: Feature): readonly Point[] {
  const [x, y] = feature.at;
  const [halfX, halfY] = [feature.sizeM[0] / 2, feature.sizeM[1] / 2];
  const corners: readonly Point[] = [
    [x - halfX, y - halfY],
    [x + halfX, y - halfY],
    [x + halfX, y + halfY],
    [x - halfX, y + halfY],
  ];
  return corners.map((p) => turned(p, feature.at, feature.turnDeg ?? 0));
}

/** A convex counter-clockwise outline moved outwards all round, corners mitred. */
export function grown(outline: readonly Point[], byM: number): readonly Point[] {
  const n = outline.length;
  return outline.map((at, i): Point => {
    const before = leftOf(towards(outline[(i + n - 1) % n]!, at));
    const after = leftOf(towards(at, outline[(i + 1) % n]!));
    const scale = byM / (1 + before[0] * after[0] + before[1] * after[1]);
    return [at[0] - (before[0] + after[0]) * scale, at[1] - (before[1] + after[1]) * scale];
  });
}

/** Half its greatest size: nothing of a feature is farther from its middle [m]. */
const reachM = (feature: Feature): number =>
  isRound(feature) ? feature.sizeM[0] / 2 : Math.hypot(...feature.sizeM) / 2;

/** Whether two features come nearer than a gap; most pairs are told apart by their reach alone. */
export function areNearer(f: Feature, g: Feature, gapLimitM: number): boolean {
  if (distanceM(f.at, g.at) - reachM(f) - reachM(g) >= gapLimitM) return false;
  return gapM(f, g) < gapLimitM;
}

/** Whether a feature comes nearer to a segment than a gap. */
export function isNearer(feature: Feature, a: Point, b: Point, gapLimitM: number): boolean {
  const offM = distanceM(feature.at, nearestOn(feature.at, a, b));
  if (offM - reachM(feature) >= gapLimitM) return false;
  return gapToSegmentM(feature, a, b) < gapLimitM;
}

/** Gap between a feature and a segment; 0 where they touch, below 0 is not told apart from 0 [m]. */
function gapToSegmentM(feature: Feature, a: Point, b: Point): number {
  if (isRound(feature)) {
    const offM = distanceM(feature.at, nearestOn(feature.at, a, b));
    return Math.max(0, offM - feature.sizeM[0] / 2);
  }
  const outline = featureOutline(feature);
  if (isInside(a, outline) || isInside(b, outline)) return 0;
  return gapToRingM(a, b, outline);
}

/** Gap between two features [m]; 0 where they touch or overlap. */
export function gapM(f: Feature, g: Feature): number {
  if (isRound(f) && isRound(g)) {
    return Math.max(0, distanceM(f.at, g.at) - (f.sizeM[0] + g.sizeM[0]) / 2);
  }
  if (!isRound(f) && !isRound(g)) {
    const [one, other] = [featureOutline(f), featureOutline(g)];
    if (isInside(f.at, other) || isInside(g.at, one)) return 0;
    return Math.min(...one.map((a, i) => gapToRingM(a, one[(i + 1) % one.length]!, other)));
  }
  const [disc, box] = isRound(f) ? [f, g] : [g, f];
  const outline = featureOutline(box);
  if (isInside(disc.at, outline)) return 0;
  const offM = Math.min(
    ...outline.map((a, i) => distanceM(disc.at, nearestOn(disc.at, a, outline[(i + 1) % 4]!))),
  );
  return Math.max(0, offM - disc.sizeM[0] / 2);
}

function gapToRingM(a: Point, b: Point, ring: readonly Point[]): number {
  return Math.min(...ring.map((c, i) => segmentsMeet(a, b, c, ring[(i + 1) % ring.length]!).gapM));
}
