/** Sunlight of a member whose cloud is not the forecast's. */
import { clearSkyWm2, sunPosition } from '../physics/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';

const SAMPLE_MS = 10 * MS_PER_MINUTE;
const DAY_MS = 24 * MS_PER_HOUR;

/** Most sunlight of the hours ending at the stamps [W/m2]: that of a clear sky, 0 by night. */
export function clearSkyByHour(args: {
  readonly startMs: number;
  readonly hours: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}): Float64Array {
  const { startMs, hours, latitudeDeg, longitudeDeg } = args;
  return Float64Array.from({ length: hours }, (_, h) => {
    let sum = 0;
    const endMs = startMs + h * MS_PER_HOUR;
    for (let ago = SAMPLE_MS / 2; ago < MS_PER_HOUR; ago += SAMPLE_MS) {
      const atMs = endMs - ago;
      const { elevationDeg } = sunPosition({ atMs, latitudeDeg, longitudeDeg });
      sum += clearSkyWm2({ sunElevationDeg: elevationDeg, dayOfYear: dayOfYear(atMs) }).globalWm2;
    }
    return (sum * SAMPLE_MS) / MS_PER_HOUR;
  });
}

/** 1..366 by UTC; a day more or less changes a clear sky by less than a hundredth. */
function dayOfYear(ms: number): number {
  const days = (ms / DAY_MS) % 365.2425;
  return Math.min(366, 1 + (days < 0 ? days + 365.2425 : days));
}

/**
 * Share of a clear sky's sunlight under cloud.
 * @param cloudPct  0..100
 * @returns 0.25..1
 * @source Kasten & Czeplak 1980, Solar Energy 24:177 (from memory)
 */
export function lightThroughCloud(cloudPct: number): number {
  return 1 - 0.75 * (cloudPct / 100) ** 3.4;
}
