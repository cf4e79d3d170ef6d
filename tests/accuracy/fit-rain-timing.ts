/**
 * Fits the rain timing model on the hours of De Bilt in 2018 and 2019 and writes
 * src/weather/data/rain-timing-de-bilt.ts: `npx tsx tests/accuracy/fit-rain-timing.ts`, then format.
 * Trace hours (under 0.05 mm) are dry, as the gauge prints them.
 */
import { writeFileSync } from 'node:fs';
import {
  EXCESS_CLASSES,
  excessClass,
  isSummer,
  LEAST_WET_MM,
  logWeight,
  mostWetParts,
  neighbourOf,
  type PatternModel,
  partWeights,
  type ShareCell,
  type ShareModel,
  type SplitContext,
  type SplitModel,
  SUM_CLASSES,
  tiltOf,
  wetCount,
} from '../../src/weather/rain-timing-model.ts';
import { DE_BILT, type HourlyRain, readDeBilt } from './rain-timing-rows.ts';

const YEARS = [2018, 2019];
const HOUR_MS = 3_600_000;
/** Pulls every weight towards 0, as a normal prior of variance 10 does. */
const RIDGE = 0.1;

interface Sample {
  readonly at: SplitContext;
  readonly partsMm: readonly number[];
  readonly pattern: number;
}

/** All wet sums of `parts` times `partHours` hours; what lies after is known as one sum of the whole length. */
function samplesOf(rain: HourlyRain, parts: 2 | 3, partHours: number): Sample[] {
  const length = parts * partHours;
  const sum = (from: number, hours: number): number => {
    if (from < 0 || from + hours > rain.rainMm.length) return Number.NaN;
    let total = 0;
    for (let h = from; h < from + hours; h += 1) total += rain.rainMm[h]!;
    // The gauge's steps, freed of what adding decimals leaves.
    return Math.round(total * 10) / 10;
  };
  const out: Sample[] = [];
  for (let b = 0; b + length <= rain.rainMm.length; b += length) {
    const sumMm = sum(b, length);
    const beforeMm = sum(b - partHours, partHours);
    const afterMm = sum(b + length, length);
    if (sumMm === 0 || Number.isNaN(beforeMm) || Number.isNaN(afterMm)) continue;
    const partsMm = Array.from({ length: parts }, (_, i) => sum(b + i * partHours, partHours));
    const startMs = rain.startMs + (b - 1) * HOUR_MS;
    out.push({
      at: {
        sumMm,
        before: neighbourOf(beforeMm, partHours),
        after: neighbourOf(afterMm, length),
        tilt: tiltOf(beforeMm / partHours, afterMm / length),
        summer: isSummer(startMs, DE_BILT.latitudeDeg),
        solarHour: ((startMs / HOUR_MS) % 24) + DE_BILT.longitudeDeg / 15,
        partHours,
      },
      partsMm,
      pattern: partsMm.reduce((bits, mm, i) => bits | (mm > 0 ? 1 << i : 0), 0),
    });
  }
  return out;
}

/** Order of the numbers in a flat list; `first`, `last` without their 'unknown'. */
function unpack(flat: readonly number[], parts: 2 | 3, unknown: [number, number]): PatternModel {
  let i = 0;
  const take = (n: number): number[] => {
    i += n;
    return flat.slice(i - n, i);
  };
  return {
    wetParts: Array.from({ length: SUM_CLASSES }, () => take(parts - 1)),
    gap: parts === 3 ? take(1)[0]! : 0,
    first: [...take(3), unknown[0]],
    last: [...take(3), unknown[1]],
    summer: take(1)[0]!,
    dayWinter: take(2),
    daySummer: take(2),
  };
}

const sizeOf = (parts: 2 | 3): number => SUM_CLASSES * (parts - 1) + (parts === 3 ? 1 : 0) + 11;

function fitPatterns(samples: readonly Sample[], parts: 2 | 3): PatternModel {
  const n = sizeOf(parts);
  // The weight is linear in its numbers, so its features are the weights of the unit vectors.
  const units = Array.from({ length: n }, (_, i) =>
    unpack(
      Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)),
      parts,
      [0, 0],
    ),
  );
  const cases = samples.map(({ at, pattern }) => ({
    pattern,
    options: Array.from({ length: 2 ** parts - 1 }, (_, i) => i + 1)
      .filter((p) => wetCount(p) <= mostWetParts(at.sumMm))
      .map((p) => ({
        pattern: p,
        f: units.map((u) => logWeight(u, p, at.sumMm, partWeights(u, parts, at))),
      })),
  }));
  let flat: number[] = new Array(n).fill(0);
  for (let round = 0; round < 12; round += 1) {
    const slope = flat.map((v) => -RIDGE * v);
    const curve = Array.from({ length: n }, (_, i) =>
      Array.from({ length: n }, (_, j) => (i === j ? RIDGE : 0)),
    );
    for (const c of cases) {
      const w = c.options.map((o) => Math.exp(o.f.reduce((s, f, i) => s + f * flat[i]!, 0)));
      const total = w.reduce((a, b) => a + b, 0);
      const mean: number[] = new Array(n).fill(0);
      c.options.forEach((o, k) => {
        for (let i = 0; i < n; i += 1) mean[i]! += (w[k]! / total) * o.f[i]!;
      });
      c.options.forEach((o, k) => {
        for (let i = 0; i < n; i += 1) {
          if (o.pattern === c.pattern) slope[i]! += o.f[i]! - mean[i]!;
          const d = (o.f[i]! - mean[i]!) * (w[k]! / total);
          if (d === 0) continue;
          for (let j = 0; j < n; j += 1) curve[i]![j]! += d * (o.f[j]! - mean[j]!);
        }
      });
    }
    const move = solve(curve, slope);
    flat = flat.map((v, i) => v + move[i]!);
  }
  const known = unpack(flat, parts, [0, 0]);
  const average = (weights: readonly number[], pick: (s: Sample) => number): number =>
    samples.reduce((s, x) => s + weights[pick(x)]!, 0) / samples.length;
  return unpack(flat, parts, [
    average(known.first, (s) => s.at.before),
    average(known.last, (s) => s.at.after),
  ]);
}

function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const a = matrix.map((row, i) => [...row, right[i]!]);
  const n = a.length;
  for (let c = 0; c < n; c += 1) {
    const best = a.reduce(
      (b, row, r) => (r >= c && Math.abs(row[c]!) > Math.abs(a[b]![c]!) ? r : b),
      c,
    );
    [a[c], a[best]] = [a[best]!, a[c]!];
    for (let r = 0; r < n; r += 1) {
      if (r === c) continue;
      const k = a[r]![c]! / a[c]![c]!;
      for (let j = c; j <= n; j += 1) a[r]![j]! -= k * a[c]![j]!;
    }
  }
  return a.map((row, i) => row[n]! / row[i]!);
}

/** Shares x with the excess they divide. */
interface Share {
  readonly x: number;
  readonly excessMm: number;
  readonly tilt: number;
}

function sharesOf(samples: readonly Sample[], wet: 2 | 3): Share[][] {
  const out: Share[][] = wet === 2 ? [[]] : [[], []];
  for (const s of samples) {
    const mm = s.partsMm.filter((v) => v > 0).map((v) => v - LEAST_WET_MM);
    if (mm.length !== wet) continue;
    for (let k = 0; k < wet - 1; k += 1) {
      const excessMm = mm.slice(k).reduce((a, b) => a + b, 0);
      if (excessMm > 0.05) out[k]!.push({ x: mm[k]! / excessMm, excessMm, tilt: s.at.tilt });
    }
  }
  return out;
}

function fitShares(shares: readonly Share[]): ShareModel {
  return Array.from({ length: EXCESS_CLASSES }, (_, e) =>
    [0, 1, 2].map((tilt) => {
      const of = shares.filter((s) => excessClass(s.excessMm) === e);
      const here = of.filter((s) => s.tilt === tilt);
      // 'Level' is rare beside heavy rain: too few cases take all tilts of the class.
      return fitShare((here.length >= 20 ? here : of).map((s) => s.x));
    }),
  );
}

/** Matches mean and variance. */
function fitShare(x: readonly number[]): ShareCell {
  const mean = x.reduce((a, b) => a + b, 0) / x.length;
  const variance = x.reduce((a, b) => a + (b - mean) ** 2, 0) / x.length;
  const draws = Array.from({ length: 400 }, (_, i) => (i + 0.5) / 400);
  const at = (shift: number, width: number): number[] =>
    draws.map((u) => 1 / (1 + Math.exp(-shift) * ((1 - u) / u) ** width));
  const avg = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
  const shiftFor = (width: number): number =>
    bisect((shift) => avg(at(shift, width)) - mean, -20, 20);
  const width = bisect(
    (w) => avg(at(shiftFor(w), w).map((v) => (v - mean) ** 2)) - variance,
    0.05,
    6,
  );
  return { shift: shiftFor(width), width };
}

function bisect(f: (x: number) => number, low: number, high: number): number {
  let a = low;
  let b = high;
  for (let i = 0; i < 40; i += 1) {
    const mid = (a + b) / 2;
    if (f(mid) < 0) a = mid;
    else b = mid;
  }
  return (a + b) / 2;
}

function fitSplit(years: readonly HourlyRain[], parts: 2 | 3, partHours: number): SplitModel {
  const samples = years.flatMap((rain) => samplesOf(rain, parts, partHours));
  console.log(`${parts} x ${partHours} h: ${samples.length} wet sums`);
  return {
    parts,
    pattern: fitPatterns(samples, parts),
    pair: fitShares(sharesOf(samples, 2)[0]!),
    triple: parts === 3 ? sharesOf(samples, 3).map(fitShares) : [],
  };
}

function main(): void {
  const years = YEARS.map(readDeBilt);
  if (years.some((y) => y === null)) {
    console.log('skipped: data set not here');
    return;
  }
  const here = years as HourlyRain[];
  const models = {
    HOURS_OF_3H: fitSplit(here, 3, 1),
    HALVES_OF_6H: fitSplit(here, 2, 3),
    HALVES_OF_12H: fitSplit(here, 2, 6),
  };
  const rounded = (_: string, v: unknown) => (typeof v === 'number' ? Number(v.toFixed(3)) : v);
  const text = Object.entries(models)
    .map(([name, m]) => `export const ${name}: SplitModel = ${JSON.stringify(m, rounded)};`)
    .join('\n\n');
  writeFileSync(
    new URL('../../src/weather/data/rain-timing-de-bilt.ts', import.meta.url),
    `/**
 * Rain timing fitted on the hours of De Bilt, Netherlands (52.1 N), ${YEARS.join(' and ')}; trace hours are dry.
 * Written by tests/accuracy/fit-rain-timing.ts: change that, not this.
 * Source of the hours: Royal Netherlands Meteorological Institute (KNMI), open data, CC BY 4.0.
 */
import type { SplitModel } from '../rain-timing-model.ts';

${text}
`,
  );
}

main();
