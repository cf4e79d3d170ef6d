import type { TimeScale } from './time-scale.ts';

/** A strip of the chart: where it stands and what its figures say. */
export interface LaneBox {
  readonly leftPx: number;
  readonly widthPx: number;
  /** Room kept at the right for the hour's figure. */
  readonly figurePx: number;
}

export type Column = readonly (number | null)[];

/** Left to right position of a value in a lane. */
export function xScale(box: LaneBox, low: number, high: number): (value: number) => number {
  const room = box.widthPx - box.figurePx - 6;
  return (value) => box.leftPx + 3 + ((value - low) / (high - low)) * room;
}

/** Lowest and highest known value of some columns over the hours shown; null when none is known. */
export function extent(columns: readonly Column[], scale: TimeScale): [number, number] | null {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const column of columns) {
    for (const value of column.slice(scale.from, scale.to)) {
      if (value === null) continue;
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  }
  return low > high ? null : [low, high];
}

/** Runs of hours in which every column is known: a gap is drawn as a gap. */
export function knownRuns(columns: readonly Column[], scale: TimeScale): number[][] {
  const runs: number[][] = [];
  let run: number[] = [];
  for (let hour = scale.from; hour <= scale.to; hour += 1) {
    const known = hour < scale.to && columns.every((column) => (column[hour] ?? null) !== null);
    if (known) run.push(hour);
    else if (run.length > 0) {
      runs.push(run);
      run = [];
    }
  }
  return runs;
}

/** Middle of an hour's row. */
export const middle = (hour: number, scale: TimeScale): number =>
  scale.topPx + (hour - scale.from + 0.5) * scale.rowPx;

export function linePath(
  column: Column,
  hours: readonly number[],
  x: (value: number) => number,
  scale: TimeScale,
): string {
  return hours
    .map((hour, index) => {
      const at = `${x(column[hour] as number).toFixed(1)} ${middle(hour, scale).toFixed(1)}`;
      return `${index === 0 ? 'M' : 'L'}${at}`;
    })
    .join(' ');
}

export function bandPath(
  low: Column,
  high: Column,
  hours: readonly number[],
  x: (value: number) => number,
  scale: TimeScale,
): string {
  const out = linePath(low, hours, x, scale);
  const back = linePath(high, [...hours].reverse(), x, scale).replace('M', 'L');
  return `${out} ${back} Z`;
}
