import { MS_PER_HOUR } from '../units/index.ts';
import type { HourlyWeather } from '../weather/index.ts';

export const FROZEN_NOTE =
  'values are the same as in the run before, hour for hour: the service may be repeating old data';

/** Fewer shared hours than this could agree by chance (a dry, steady half day). */
const LEAST_HOURS = 24;

/**
 * True when two answers of different runs agree in every shared coming hour. Providers have served
 * old values for days under a fresh run time; real runs never agree to the last digit.
 */
export function isFrozen(before: HourlyWeather, after: HourlyWeather, fromMs: number): boolean {
  if (before.members.length !== after.members.length) return false;
  const shift = (after.startMs - before.startMs) / MS_PER_HOUR;
  if (!Number.isInteger(shift)) return false;
  const first = Math.max(0, -shift, Math.ceil((fromMs - after.startMs) / MS_PER_HOUR));
  const end = Math.min(after.hours, before.hours - shift);
  let compared = 0;
  for (let m = 0; m < after.members.length; m++) {
    const a = after.members[m];
    const b = before.members[m];
    if (!a || !b) return false;
    for (let h = first; h < end; h++) {
      const tempC = a.airTempC[h] ?? Number.NaN;
      const windMps = a.windMps[h] ?? Number.NaN;
      if (Number.isNaN(tempC) || Number.isNaN(windMps)) continue;
      if (tempC !== b.airTempC[h + shift] || windMps !== b.windMps[h + shift]) return false;
      if (m === 0) compared++;
    }
  }
  return compared >= LEAST_HOURS;
}
