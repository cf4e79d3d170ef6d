/** Rain sums of coarse feeds into hours, with the wet spells of real hours. */
import { inRange, MS_PER_HOUR } from '../units/index.ts';
import { HALVES_OF_6H, HALVES_OF_12H, HOURS_OF_3H } from './data/rain-timing-de-bilt.ts';
import { type CoarseBlock, coarseBlocks } from './rain-timing-blocks.ts';
import { type Guide, guideFrom, guideFromQuarters, NO_GUIDE } from './rain-timing-guide.ts';
import { isSummer, neighbourOf, type SplitModel, tiltOf } from './rain-timing-model.ts';
import { drawsOf, splitSum } from './rain-timing-sum.ts';
import type { HourlyMember, HourlyWeather } from './types.ts';

export const RAIN_TIMING_NOTE = 'rain timing inside 3- and 6-hour steps is modelled';

export interface SplitOptions {
  /** Same seed, same draws. Whole number; its lowest 32 bits count. */
  readonly seed: number;
  /**
   * A fresh hourly run (its first forecast) that guides the timing; null = the weather's own quarter-hour
   * rain does, where it has any.
   */
  readonly guide: HourlyWeather | null;
  /** For season and solar time. */
  readonly place: { readonly latitudeDeg: number; readonly longitudeDeg: number };
}

/** A length of sums and the starts (index of the first stamp) of those to be halved or cut in three. */
interface Level {
  readonly hours: number;
  readonly model: SplitModel;
  readonly starts: readonly number[];
}

/**
 * Splits the coarse rain sums of a feed into hours. Steps of 12 h are halved, steps of 6 h are halved,
 * steps of 3 h get one of seven wet and dry patterns and a share of the sum for each wet hour.
 *
 * The draws of a sum depend only on the seed, the member's place in the list and the time the sum
 * starts. What comes of them depends also on the sum itself, on the hour drawn before it and on whether
 * rain follows, so a changed sum can reach back over the last two coarse steps before it, no further.
 *
 * @param hourly  [mm], NaN = missing
 * @returns the weather with new rain columns, or the same object where no rain is coarse. Hours of a block
 *   add up, in any order, to exactly what its hours added up to before; a block with a missing hour,
 *   an hourly stretch and every other column stay as they are.
 * @throws RangeError on a seed that is not a whole number, a place off the globe, or a guide whose
 *   stamps are no whole hours
 * @source wet spells fitted on KNMI hours of De Bilt 2018-2019; tests/measured/rain-timing.test.ts
 * @accuracy share of dry 4-hour stretches from starts 07-12 UTC of 2020: see docs/accuracy.md
 */
export function splitCoarseRain(hourly: HourlyWeather, opts: SplitOptions): HourlyWeather {
  const { seed, guide, place } = opts;
  if (!Number.isInteger(seed)) throw new RangeError(`seed (${seed}) must be a whole number`);
  inRange('latitudeDeg', place.latitudeDeg, -90, 90);
  inRange('longitudeDeg', place.longitudeDeg, -180, 180);
  const blocks = coarseBlocks(hourly);
  const wet = (b: CoarseBlock): boolean => hourly.members.some((m) => sumOf(m.rainMm, b) > 0);
  if (!blocks.some(wet)) return hourly;

  const lean = leanOf(hourly, guide);
  const levels = levelsOf(blocks);
  const members = hourly.members.map((member, m) => {
    const rainMm = Float64Array.from(member.rainMm);
    for (const level of levels) splitLevel(rainMm, level, { hourly, seed, member: m, place, lean });
    for (const block of blocks) settle(rainMm, member, block);
    return { ...member, rainMm };
  });
  const notes = hourly.source.notes.includes(RAIN_TIMING_NOTE)
    ? hourly.source.notes
    : [...hourly.source.notes, RAIN_TIMING_NOTE];
  return { ...hourly, members, source: { ...hourly.source, notes } };
}

function leanOf({ startMs, quarterRain }: HourlyWeather, guide: HourlyWeather | null): Guide {
  if (guide !== null) return guideFrom(guide, startMs);
  return quarterRain === undefined ? NO_GUIDE : guideFromQuarters(quarterRain);
}

function levelsOf(blocks: readonly CoarseBlock[]): Level[] {
  // Every block is cut down to 3 h: its starts at a length are those of its pieces of that length.
  const starts = (hours: number): number[] =>
    blocks.flatMap((b) =>
      Array.from({ length: Math.floor(b.hours / hours) }, (_, i) => b.firstHour + i * hours),
    );
  return [
    { hours: 12, model: HALVES_OF_12H, starts: starts(12) },
    { hours: 6, model: HALVES_OF_6H, starts: starts(6) },
    { hours: 3, model: HOURS_OF_3H, starts: starts(3) },
  ];
}

interface MemberOf {
  readonly hourly: HourlyWeather;
  readonly seed: number;
  readonly member: number;
  readonly place: SplitOptions['place'];
  readonly lean: Guide;
}

/** Oldest first: what came of a sum is the 'before' of the next. */
function splitLevel(rainMm: Float64Array, level: Level, of: MemberOf): void {
  const { hours, model } = level;
  const partHours = hours / model.parts;
  for (const first of level.starts) {
    const sumMm = sumAt(rainMm, first, hours);
    if (!(sumMm > 0)) continue;
    const startHour = of.hourly.startMs / MS_PER_HOUR + first - 1;
    const beforeMm = sumAt(rainMm, first - partHours, partHours);
    const afterMm = sumAt(rainMm, first + hours, hours);
    const at = {
      sumMm,
      before: neighbourOf(beforeMm, partHours),
      after: neighbourOf(afterMm, hours),
      tilt: tiltOf(beforeMm / partHours, afterMm / hours),
      summer: isSummer(startHour * MS_PER_HOUR, of.place.latitudeDeg),
      solarHour: (startHour % 24) + of.place.longitudeDeg / 15,
      partHours,
    };
    const draw = drawsOf({ seed: of.seed, member: of.member, startHour, hours });
    const parts = splitSum(model, at, of.lean(startHour, model.parts, partHours), draw);
    parts.forEach((mm, i) => {
      rainMm.fill(mm / partHours, first + i * partHours, first + (i + 1) * partHours);
    });
  }
}

/** NaN where an hour is missing or lies outside the data. */
function sumAt(rainMm: Float64Array, first: number, hours: number): number {
  let sum = 0;
  for (let h = first; h < first + hours; h += 1) sum += rainMm[h] ?? Number.NaN;
  return sum;
}

const sumOf = (rainMm: Float64Array, b: CoarseBlock): number => sumAt(rainMm, b.firstHour, b.hours);

/** Makes the hours of a block add up to the feed's sum to the last bit. */
function settle(rainMm: Float64Array, member: HourlyMember, block: CoarseBlock): void {
  const { firstHour, hours } = block;
  const sumMm = sumOf(member.rainMm, block);
  if (!(sumMm > 0)) {
    rainMm.set(member.rainMm.subarray(firstHour, firstHour + hours), firstHour);
    return;
  }
  let largest = firstHour;
  for (let h = firstHour; h < firstHour + hours; h += 1) {
    // Rounds to a multiple of the sum's last digit: such numbers below the sum add without error.
    rainMm[h] = sumMm + rainMm[h]! - sumMm;
    if (rainMm[h]! > rainMm[largest]!) largest = h;
  }
  let others = 0;
  for (let h = firstHour; h < firstHour + hours; h += 1) if (h !== largest) others += rainMm[h]!;
  rainMm[largest] = sumMm - others;
}
