import type { Point } from '../../outline/types.ts';
import { type Box, boxAround } from './place.ts';
import { num } from './text.ts';

/**
 * Units of the drawing: 390 across, so that text of 11 is 11 px on a phone's width and about 5 mm high
 * in a line on A4.
 */
export const WIDTH = 390;
export const TEXT = 11;
export const LINE = 15;
export const MARGIN = 10;
/** Room round the roof for dimensions. */
export const ROUND = 42;
const TALLEST = 400;

export interface View {
  readonly unitsPerM: number;
  readonly heightUnits: number;
  readonly top: number;
  at(p: Point): Point;
}

export function viewOf(points: readonly Point[], top: number): View {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
  const unitsPerM = Math.min((WIDTH - 2 * ROUND) / (x1 - x0), (TALLEST - 2 * ROUND) / (y1 - y0));
  const left = (WIDTH - (x1 - x0) * unitsPerM) / 2;
  return {
    unitsPerM,
    heightUnits: (y1 - y0) * unitsPerM + 2 * ROUND,
    top,
    at: ([x, y]) => [left + (x - x0) * unitsPerM, top + ROUND + (y1 - y) * unitsPerM],
  };
}

export function path(points: readonly Point[]): string {
  return `M${points.map(([x, y]) => `${num(x)} ${num(y)}`).join('L')}Z`;
}

export function line(a: Point, b: Point, rest: string): string {
  return `<path d="M${num(a[0])} ${num(a[1])}L${num(b[0])} ${num(b[1])}" ${rest}/>`;
}

/** Boxes along a stretch, for texts to keep off. */
export function boxesAlong(a: Point, b: Point, size: number): Box[] {
  const steps = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / size));
  return Array.from({ length: steps }, (_, i): Box => {
    const share = (i + 0.5) / steps;
    return boxAround(a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, size, size);
  });
}
