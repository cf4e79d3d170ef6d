/** Where a feed's hourly rain is really a coarser sum spread evenly. */
import { MS_PER_HOUR } from '../units/index.ts';
import { NATIVE_STEPS } from './data/native-steps.ts';
import type { HourlyWeather } from './types.ts';

/** One coarse step of the feed: hours firstHour..firstHour + hours - 1 carry one sum. */
export interface CoarseBlock {
  /** Index of the stamp of its first hour; that hour ends at the stamp. */
  readonly firstHour: number;
  readonly hours: 3 | 6 | 12;
}

const STEPS = [3, 6, 12] as const;
type Step = (typeof STEPS)[number];

/**
 * Wet even blocks, and different sums among them, that prove a step where no table tells of it: by
 * chance one block may be even, and in weather made by hand one sum may come evenly again and again.
 */
const PROOF_BLOCKS = 3;
const PROOF_SUMS = 2;
/** A run becomes available some hours after the time it starts from. */
const RUN_DELAY_H = 12;

/**
 * The coarse steps of a feed, oldest first. Steps belong to the feed's model, so all members are read
 * together, and grow with the lead: from some hour on every block of 3, 6 or 12 hours on UTC boundaries
 * is even in every member, and enough of them carry rain: one where the model is known to have that step
 * at that lead, three of at least two sums otherwise. A wet even block of a known step counts even if a later one is uneven.
 * Stretches dry in all members are ambiguous; splitting them or not is the same. A block that lies
 * partly outside the data is none.
 */
export function coarseBlocks(hourly: HourlyWeather): readonly CoarseBlock[] {
  if (hourly.startMs % MS_PER_HOUR !== 0) return [];
  const startHour = hourly.startMs / MS_PER_HOUR;
  const steps = STEPS.map((step) => coarseHours(hourly, startHour, step));
  const out: CoarseBlock[] = [];
  let hour = 0;
  while (hour < hourly.hours) {
    let step: Step | null = null;
    for (let s = 0; s < STEPS.length; s += 1) if (steps[s]!.has(hour)) step = STEPS[s]!;
    if (step !== null) out.push({ firstHour: hour, hours: step });
    hour += step ?? 1;
  }
  return out;
}

/** First hours of the blocks of this length that the feed gives as one sum, or as a longer one. */
function coarseHours(hourly: HourlyWeather, startHour: number, step: Step): ReadonlySet<number> {
  const first = (((1 - startHour) % step) + step) % step;
  const out = new Set<number>();
  const unproven: number[] = [];
  let wetSoFar = 0;
  const sumsSoFar = new Set<number>();
  let evenSoFar = true;
  const count = Math.floor((hourly.hours - first) / step);
  for (let b = count - 1; b >= 0; b -= 1) {
    const hour = first + b * step;
    const wet = wetEvenSums(hourly, hour, step);
    if (wet === null) {
      evenSoFar = false;
      continue;
    }
    const known = knownStep(hourly, hour) >= step;
    if (known && wet.length > 0) out.add(hour);
    if (!evenSoFar) continue;
    wetSoFar += wet.length;
    for (const sum of wet) sumsSoFar.add(sum);
    unproven.push(hour);
    const proved = known ? wetSoFar > 0 : wetSoFar >= PROOF_BLOCKS && sumsSoFar.size >= PROOF_SUMS;
    if (proved) for (const h of unproven.splice(0)) out.add(h);
  }
  return out;
}

/** What the block brings an hour in members where it is even and wet; null where one has it uneven. */
function wetEvenSums(hourly: HourlyWeather, hour: number, step: Step): number[] | null {
  const wet: number[] = [];
  for (const { rainMm } of hourly.members) {
    // A gap inside a block says nothing of its step; two known hours that differ do.
    let value = Number.NaN;
    for (let h = hour; h < hour + step; h += 1) {
      const here = rainMm[h]!;
      if (Number.isNaN(here)) continue;
      if (Number.isNaN(value)) value = here;
      else if (here !== value) return null;
    }
    if (value > 0) wet.push(value);
  }
  return wet;
}

/** The model's native step at an hour by the table, at the later of the leads it may have; 0 = not known. */
function knownStep(hourly: HourlyWeather, hour: number): number {
  const { model, issuedMs, fetchedMs } = hourly.source;
  const rows = model === null ? undefined : NATIVE_STEPS[model];
  const knownMs = issuedMs ?? fetchedMs;
  if (rows === undefined || knownMs === null) return 0;
  const leadH = (hourly.startMs - knownMs) / MS_PER_HOUR + hour + RUN_DELAY_H;
  let step = rows[0]!.stepHours as number;
  for (const row of rows) if (leadH >= row.fromLeadH) step = row.stepHours;
  return step;
}
