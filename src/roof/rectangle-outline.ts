import { inRange } from '../units/index.ts';
import type { Feature, OutlineEdge, OutlineRoof, Point } from './outline/types.ts';
import type { EdgeSide, Roof } from './types.ts';

/** Counter-clockwise from the low left corner, as the outline runs. */
const SIDES: readonly EdgeSide[] = ['low', 'right', 'high', 'left'];
/** Sizes of what a rectangle only counts; common practice. */
const OUTLET_M = 0.2;
const PIPE_M = 0.1;
const ROOFLIGHT_M = 1;

/**
 * A rectangle given by its sizes as an outline: x along the low edge, y up the fall. Sizes are those on
 * the roof surface, so the plan is that much shorter up the fall. What is only counted is placed as it
 * usually lies: outlets along the low edge, pipes and rooflights in rows across the middle.
 * @throws RangeError on a size outside its range, NaN included
 */
export function rectangleOutline(roof: Roof): OutlineRoof {
  const lengthM = inRange('lengthM', roof.lengthM, 0.5, 200);
  const widthM = inRange('widthM', roof.widthM, 0.5, 100);
  inRange('upstandMm', roof.upstandMm, 0, 1000);
  const fallDeg = inRange('fallDeg', roof.fallDeg, 0, 60);
  const planM = widthM * Math.cos((fallDeg * Math.PI) / 180);
  const points: Point[] = [
    [0, 0],
    [lengthM, 0],
    [lengthM, planM],
    [0, planM],
  ];
  const edges = SIDES.map((side): OutlineEdge => {
    const kind = roof.edges[side];
    return {
      kind: kind === 'eaves' ? 'gutter' : kind,
      upstandMm: kind === 'abutment' ? roof.upstandMm : 0,
      side,
    };
  });
  const features = [
    ...row('outlet', roof.outlets, OUTLET_M, lengthM, Math.min(0.5, planM / 4), 0),
    ...row('pipe', roof.pipes, PIPE_M, lengthM, planM * 0.3, roof.upstandMm),
    ...row('rooflight', roof.rooflights, rooflightM(roof), lengthM, planM * 0.65, roof.upstandMm),
  ];
  return {
    areas: [{ id: 'roof', name: 'Roof', points, edges, fallDeg, fallPlanDeg: 180, features }],
    // The low edge lies at the foot of the page, and water runs down it.
    northDeg: (roof.fallAzimuthDeg + 180) % 360,
    access: null,
  };
}

/** One metre square, less where a row of them would not fit between the edges. */
function rooflightM({ lengthM, widthM, rooflights }: Roof): number {
  return Math.min(ROOFLIGHT_M, widthM / 3, lengthM / (2 * Math.max(1, rooflights)));
}

function row(
  kind: Feature['kind'],
  count: number,
  sizeM: number,
  lengthM: number,
  yM: number,
  upstandMm: number,
): Feature[] {
  return Array.from({ length: count }, (_, i) => ({
    id: count === 1 ? kind : `${kind} ${i + 1}`,
    kind,
    // Off the middle, where a roof is cut into bays.
    at: [(lengthM * (i + 0.6)) / count, yM],
    sizeM: [sizeM, sizeM],
    upstandMm,
  }));
}
