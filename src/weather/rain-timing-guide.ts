/** How a fresh hourly run pushes the rain of a coarse step towards its own wet hours. */
import { MS_PER_HOUR } from '../units/index.ts';
import { hourlyOf } from './quarter-rain.ts';
import type { HourlyWeather, QuarterRain } from './types.ts';

/**
 * Strength at lead 0, judged and not fitted (hourly runs with the hours that followed were not at
 * hand): of three hours, one that holds all of the guide's rain gains odds of exp(3 x 0.5) = 4.5 over a
 * dry one. Weak enough that members keep differing in their timing.
 */
const GUIDE_STRENGTH = 0.5;
/** The strength falls to 1/e over this lead [h]; judged: a front's hour is rarely known two days out. */
const GUIDE_FADE_H = 48;
/** Added to every part of the guide [mm], so that a dry part is unlikely and not impossible. */
const FLOOR_MM = 0.1;

/** Where the guide's rain lies within one sum. */
export interface Lean {
  /** Added to a pattern's log weight for each wet part. */
  readonly perPart: readonly number[];
}

export type Guide = (startHour: number, parts: number, partHours: number) => Lean | null;

export const NO_GUIDE: Guide = () => null;

/**
 * Guidance from the first forecast of a run. A stretch that the run has dry, unknown or even (as its own
 * coarse steps are) gives none.
 * @param now0Ms  where lead counts from if the run does not say when it was issued or fetched
 */
export function guideFrom(run: HourlyWeather, now0Ms: number): Guide {
  const rainMm = run.members[0]?.rainMm;
  if (rainMm === undefined) return NO_GUIDE;
  if (run.startMs % MS_PER_HOUR !== 0) {
    throw new RangeError(`guide startMs (${run.startMs}) must be a whole hour`);
  }
  const issuedMs = run.source.issuedMs ?? run.source.fetchedMs ?? now0Ms;
  return guideOf(rainMm, run.startMs / MS_PER_HOUR, issuedMs / MS_PER_HOUR);
}

/** The same from a run by the quarter hour. */
export function guideFromQuarters(quarters: QuarterRain): Guide {
  const { startMs, rainMm } = hourlyOf(quarters);
  return guideOf(rainMm, startMs / MS_PER_HOUR, quarters.knownMs / MS_PER_HOUR);
}

function guideOf(rainMm: Float64Array, firstStamp: number, issuedHour: number): Guide {
  return (startHour, parts, partHours) => {
    const sums: number[] = [];
    let total = 0;
    for (let i = 0; i < parts; i += 1) {
      let sum = FLOOR_MM;
      for (let k = 0; k < partHours; k += 1) {
        // The hour from startHour on is stamped an hour later.
        sum += rainMm[startHour + 1 + i * partHours + k - firstStamp] ?? Number.NaN;
      }
      sums.push(sum);
      total += sum;
    }
    if (Number.isNaN(total)) return null;
    const leadH = Math.max(0, startHour - issuedHour);
    const strength = GUIDE_STRENGTH * Math.exp(-leadH / GUIDE_FADE_H);
    return { perPart: sums.map((sum) => strength * ((parts * sum) / total - 1)) };
  };
}
