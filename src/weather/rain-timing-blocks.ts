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

/** Wet even blocks that prove a step where no table tells of it: by chance one may be even, not three. */
const PROOF_BLOCKS = 3;
/** A run becomes available some hours after the time it starts from. */
const RUN_DELAY_H = 12;

/**
 * The coarse steps of a feed, oldest first. Steps belong to the feed's model, so all members are read
 * together: from some hour on every block of 3, 6 or 12 hours on UTC boundaries is even in every
 * member, and enough of them carry rain. One such block is enough where the model is known to have that
 * step at that lead, three otherwise. Stretches dry in all members are ambiguous; splitting them or not
 * is the same. A block that lies partly outside the data, or has a missing hour in all members, is no
 * block.
 */
export function coarseBlocks(hourly: HourlyWeather): readonly CoarseBlock[] {
  if (hourly.startMs % MS_PER_HOUR !== 0) return [];
  const startHour = hourly.startMs / MS_PER_HOUR;
  const from = STEPS.map((step) => evenFrom(hourly, startHour, step));
  const out: CoarseBlock[] = [];
  let hour = 0;
  while (hour < hourly.hours) {
    const step = coarsestAt(hourly, startHour, hour, from);
    if (step !== null) out.push({ firstHour: hour, hours: step });
    hour += step ?? 1;
  }
  return out;
}

function coarsestAt(
  hourly: HourlyWeather,
  startHour: number,
  hour: number,
  from: readonly number[],
): Step | null {
  for (let s = STEPS.length - 1; s >= 0; s -= 1) {
    const step = STEPS[s]!;
    const onBoundary = (((startHour + hour - 1) % step) + step) % step === 0;
    if (onBoundary && hour >= from[s]! && hour + step <= hourly.hours) return step;
  }
  return null;
}

/** First hour from which the feed's step is at least this coarse, or Infinity. */
function evenFrom(hourly: HourlyWeather, startHour: number, step: Step): number {
  const first = (((1 - startHour) % step) + step) % step;
  let proof = 0;
  let from = Number.POSITIVE_INFINITY;
  const count = Math.floor((hourly.hours - first) / step);
  for (let b = count - 1; b >= 0; b -= 1) {
    const hour = first + b * step;
    const wet = wetEvenMembers(hourly, hour, step);
    if (wet === null) break;
    if (wet > 0) {
      proof += Math.min(wet, PROOF_BLOCKS);
      const needed = knownStep(hourly, hour) >= step ? 1 : PROOF_BLOCKS;
      if (proof >= needed) from = hour;
    } else if (from !== Number.POSITIVE_INFINITY) from = hour;
  }
  return from;
}

/** Members in which the block is even and wet; null where some member has it uneven. */
function wetEvenMembers(hourly: HourlyWeather, hour: number, step: Step): number | null {
  let wet = 0;
  for (const { rainMm } of hourly.members) {
    const value = rainMm[hour]!;
    for (let h = hour + 1; h < hour + step; h += 1) {
      // A gap inside a block says nothing of its step; a difference does.
      if (rainMm[h] !== value && !Number.isNaN(value) && !Number.isNaN(rainMm[h]!)) return null;
    }
    if (value > 0) wet += 1;
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
