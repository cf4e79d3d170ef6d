import { extentM } from './outline/bands.ts';
import { onDrawing } from './outline/surface.ts';
import type { Feature, FeatureKind, Point, RoofArea } from './outline/types.ts';
import type { BayShape } from './split-area.ts';

/** How far up a bay each usually lies, as a share of the bay; common practice. */
const UP_SHARE: Readonly<Record<Exclude<FeatureKind, 'outlet'>, number>> = {
  pipe: 0.3,
  rooflight: 0.65,
};
/** Each kind is a part of a step off the others, so that the last bay does not get one more of each. */
const OFF_STEP: Readonly<Record<FeatureKind, number>> = { outlet: 0, pipe: 0.5, rooflight: 0.25 };
/** Outlets lie this far up from the low edge [m]. */
const OUTLET_UP_M = 0.5;
/** Off the middle, where sheets like to end. */
const ALONG_SHARE = 0.6;

/**
 * Places for what is only counted on a rectangle: outlets evenly over the bays along the low edge, pipes
 * and rooflights evenly over all of them.
 * @param area x along the low edge, y up the fall
 * @param bays rectangles, as they lie on the roof
 * @returns the same features, moved
 */
export function spreadFeatures(area: RoofArea, bays: readonly BayShape[]): readonly Feature[] {
  const boxes = bays.map(({ pieces }) => {
    const [x, y] = [pieces.map((p) => extentM(p, [1, 0])), pieces.map((p) => extentM(p, [0, 1]))];
    return {
      x0: Math.min(...x.map((e) => e.fromM)),
      x1: Math.max(...x.map((e) => e.toM)),
      y0: Math.min(...y.map((e) => e.fromM)),
      y1: Math.max(...y.map((e) => e.toM)),
    };
  });
  const lowestM = Math.min(...boxes.map(({ y0 }) => y0));
  const low = boxes.filter(({ y0 }) => y0 < lowestM + 1e-6);
  const row = (kind: FeatureKind): Feature[] => {
    const all = area.features.filter((f) => f.kind === kind);
    const over = kind === 'outlet' ? low : boxes;
    const off = OFF_STEP[kind];
    const upTo = (b: number): number => Math.floor((all.length * b) / over.length + off);
    return over.flatMap(({ x0, x1, y0, y1 }, b) => {
      const here = all.slice(upTo(b), upTo(b + 1));
      const upM =
        kind === 'outlet' ? Math.min(OUTLET_UP_M, (y1 - y0) / 4) : (y1 - y0) * UP_SHARE[kind];
      return here.map((feature, i): Feature => {
        const at: Point = [x0 + ((x1 - x0) * (i + ALONG_SHARE)) / here.length, y0 + upM];
        return { ...feature, at: onDrawing([at], area)[0]! };
      });
    });
  };
  return [...row('outlet'), ...row('pipe'), ...row('rooflight')];
}
