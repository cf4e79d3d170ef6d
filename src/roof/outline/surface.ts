import { inRange } from '../../units/index.ts';
import type { OutlinePiece, Point } from './types.ts';
import { along, dot, planDirection } from './vectors.ts';

/** How the roof falls; the direction as in `RoofArea`. */
export interface Fall {
  readonly fallDeg: number;
  readonly fallPlanDeg: number;
}

/**
 * True area over plan area, 1/cos of the fall.
 * @param fallDeg 0..60
 * @throws RangeError outside the range, NaN included
 * @source plane geometry
 */
export function surfaceFactor(fallDeg: number): number {
  return 1 / Math.cos((inRange('fallDeg', fallDeg, 0, 60) * Math.PI) / 180);
}

/**
 * Points of a drawing as they lie on the sloping surface, laid flat: stretched along the fall. Lengths,
 * angles and areas of the result are those a tape finds on the roof.
 */
export function onSurface(points: readonly Point[], fall: Fall): readonly Point[] {
  return stretched(points, fall, surfaceFactor(fall.fallDeg) - 1);
}

/** The way back: from the surface laid flat to the drawing. */
export function onDrawing(points: readonly Point[], fall: Fall): readonly Point[] {
  return stretched(points, fall, 1 / surfaceFactor(fall.fallDeg) - 1);
}

function stretched(points: readonly Point[], fall: Fall, stretch: number): readonly Point[] {
  if (stretch === 0) return points;
  const down = planDirection(fall.fallPlanDeg);
  return points.map((p) => along(p, down, dot(p, down) * stretch));
}

export function pieceOnSurface(piece: OutlinePiece, fall: Fall): OutlinePiece {
  return { points: onSurface(piece.points, fall), edges: piece.edges };
}

/** How far the surface drops per metre of plan in a direction; below 0 where it rises. */
export function dropPerM(fall: Fall, direction: Point): number {
  const tan = Math.tan((fall.fallDeg * Math.PI) / 180);
  return tan * dot(planDirection(fall.fallPlanDeg), direction);
}

/** Compass direction of a direction on the drawing, both 0..360 [deg]. */
export function compassDeg(northDeg: number, planDeg: number): number {
  return (((northDeg + planDeg) % 360) + 360) % 360;
}
