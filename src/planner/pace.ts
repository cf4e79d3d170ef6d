import type { LabourRates } from '../stages/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import type { Prepared } from './prepare.ts';
import { quantile } from './quantile.ts';
import type { Shift } from './shift.ts';

/** How much longer everything takes on a day, and why; 1 = as the rates say. */
export interface Pace {
  readonly slower: number;
  /** '' where nothing slows the crew. */
  readonly words: string;
}

/**
 * Output against the usual by the mean of a working day. Cold under 5 °C and gusts cut output by 20-50 %,
 * heavy work slows above about 30 °C (common practice); where in that range is from memory.
 */
const OUTPUT = {
  cold: [
    [-10, 0.5],
    [0, 0.65],
    [5, 0.8],
    [7, 1],
  ],
  gust: [
    [7, 1],
    [10, 0.8],
    [15, 0.6],
  ],
  heat: [
    [28, 1],
    [32, 0.8],
    [40, 0.6],
  ],
} as const;

type Line = readonly (readonly [at: number, output: number])[];

/** Straight between the points, level beyond them. */
function outputAt(line: Line, value: number): number {
  const last = line[line.length - 1]!;
  if (value >= last[0]) return last[1];
  let before = line[0]!;
  for (const point of line) {
    if (value < point[0]) {
      if (before === point) return point[1];
      const share = (value - before[0]) / (point[0] - before[0]);
      return before[1] + share * (point[1] - before[1]);
    }
    before = point;
  }
  return before[1];
}

/**
 * How the weather of a day slows the hands, from what is forecast when the day is planned: the middle of
 * the forecasts' means over the shift. The worst of cold, gusts and heat counts, not their product.
 */
export function paceOn({ grid }: Prepared, shift: Shift): Pace {
  const airC = middleMean(grid.airTempC, { grid }, shift);
  const gustMps = middleMean(grid.gustMps, { grid }, shift);
  if (airC === null || gustMps === null) return { slower: 1, words: '' };
  return paceFor(airC, gustMps);
}

/** @param airC, gustMps means over a working day */
export function paceFor(airC: number, gustMps: number): Pace {
  const found = [
    { output: outputAt(OUTPUT.cold, airC), why: `cold, ${airC.toFixed(0)} °C on average` },
    {
      output: outputAt(OUTPUT.gust, gustMps),
      why: `gusts of ${gustMps.toFixed(0)} m/s on average`,
    },
    { output: outputAt(OUTPUT.heat, airC), why: `heat, ${airC.toFixed(0)} °C on average` },
  ].sort((a, b) => a.output - b.output)[0]!;
  const slower = 1 / found.output;
  const percent = Math.round((slower - 1) * 20) * 5;
  if (percent === 0) return { slower: 1, words: '' };
  return {
    slower,
    words: `Work is reckoned about ${percent} % slower than usual that day: ${found.why} (common practice).`,
  };
}

/** The rates of such a day; sections sized with them shrink as the hands slow. */
export function ratesAt(rates: LabourRates, { slower }: Pace): LabourRates {
  if (slower === 1) return rates;
  const scaled = Object.entries(rates).map(([id, rate]) => {
    const by = rate.unit === 'min each' ? slower : 1 / slower;
    return [
      id,
      { ...rate, low: rate.low * by, typical: rate.typical * by, high: rate.high * by },
    ] as const;
  });
  return Object.fromEntries(scaled) as LabourRates;
}

function middleMean(
  column: Float32Array,
  { grid }: Pick<Prepared, 'grid'>,
  shift: Shift,
): number | null {
  const first = Math.max(0, stepAt(grid, shift.startMs));
  const means: number[] = [];
  for (let m = 0; m < grid.memberCount; m += 1) {
    const end = Math.min(stepAt(grid, shift.endMs), grid.knownSteps[m]!);
    let sum = 0;
    for (let i = first; i < end; i += 1) sum += column[m * grid.steps + i]!;
    if (end > first && stepStartMs(grid, end) > shift.startMs) means.push(sum / (end - first));
  }
  return quantile(means, 0.5);
}
