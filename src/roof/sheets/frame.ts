import type { Point } from '../outline/types.ts';

/** Axes of a layout: rolls run out along `along`, courses follow each other along `across`. */
export interface Frame {
  readonly along: Point;
  readonly across: Point;
}

const RAD = Math.PI / 180;

/** Unit vector of a plan direction, 0 = +y, 90 = +x. */
export function planVector(deg: number): Point {
  return [Math.sin(deg * RAD), Math.cos(deg * RAD)];
}

/** Plan direction of a line, 0 up to but not including 180. */
export function lineDeg(x: number, y: number): number {
  const deg = Math.atan2(x, y) / RAD;
  const turned = ((deg % 180) + 180) % 180;
  return turned > 180 - 1e-9 ? 0 : turned;
}

export function dot(a: Point, b: Point): number {
  return a[0] * b[0] + a[1] * b[1];
}

export function toFrame(frame: Frame, p: Point): Point {
  return [dot(p, frame.along), dot(p, frame.across)];
}

export function fromFrame(frame: Frame, u: number, v: number): Point {
  return [frame.along[0] * u + frame.across[0] * v, frame.along[1] * u + frame.across[1] * v];
}

/** Corners in plan of a rectangle in the frame. */
export function rectCorners(
  frame: Frame,
  from: number,
  to: number,
  start: number,
  end: number,
): [Point, Point, Point, Point] {
  return [
    fromFrame(frame, from, start),
    fromFrame(frame, to, start),
    fromFrame(frame, to, end),
    fromFrame(frame, from, end),
  ];
}

/**
 * Axes for rolls running along a direction, turned so that both point up the fall: courses and pieces
 * are then laid in the order of their coordinates and each later sheet lies on the one below it.
 * Across the fall, where no order sheds more water, they point towards the access, else to +x or +y.
 */
export function frameFor(rollsRunDeg: number, fall: Fall, towards: Point | null): Frame {
  const orient = (axis: Point): Point => {
    const downhill = downAlong(axis, fall);
    if (Math.abs(downhill) > LEVEL) return downhill > 0 ? [-axis[0], -axis[1]] : axis;
    const side = towards === null ? 0 : dot(axis, towards);
    const ahead = Math.abs(side) > 1e-6 ? side : axis[0] + axis[1] * 1.001;
    return ahead < 0 ? [-axis[0], -axis[1]] : axis;
  };
  const along = planVector(rollsRunDeg);
  return { along: orient(along), across: orient([-along[1], along[0]]) };
}

type Fall = { readonly fallPlanDeg: number; readonly fallDeg: number };

function downAlong(axis: Point, fall: Fall): number {
  return fall.fallDeg > 0 ? dot(axis, planVector(fall.fallPlanDeg)) : 0;
}

/** The frame with courses laid from the other side; null where water says which side comes first. */
export function fromOtherSide(frame: Frame, fall: Fall): Frame | null {
  if (Math.abs(downAlong(frame.across, fall)) > LEVEL) return null;
  return { along: frame.along, across: [-frame.across[0], -frame.across[1]] };
}

/** Sine of the angle to a contour below which a lap counts as neither up nor down the fall. */
const LEVEL = 0.02;
