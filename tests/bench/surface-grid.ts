import type { WeatherGrid } from '../../src/weather/index.ts';
import { MADE_UP, MINUTE_MS } from '../fixtures/weather/by-hand.ts';

const STEPS_PER_DAY = 288;

/** The longest grid there is: 51 forecasts of 16 days by five minutes, days of sun with showers. */
export function longestGrid(): WeatherGrid {
  const steps = 16 * STEPS_PER_DAY;
  const memberCount = 51;
  const column = (of: (hour: number, i: number, m: number) => number): Float32Array =>
    Float32Array.from({ length: steps * memberCount }, (_, at) => {
      const i = at % steps;
      return of((i / 12) % 24, i, Math.floor(at / steps));
    });
  const windMps = column((_, i, m) => 3 + 2 * Math.sin(i / 50 + m));
  return {
    startMs: 0,
    stepMs: 5 * MINUTE_MS,
    steps,
    memberCount,
    airTempC: column((h, _, m) => 12 - 6 * Math.cos(((h - 3) / 12) * Math.PI) + m / 20),
    dewPointC: column(() => 7),
    windMps,
    gustMps: windMps,
    rainMm: column((_, i, m) => (Math.sin(i / 100 + m) > 0.9 ? 0.05 : 0)),
    solarWm2: column((h) => Math.max(0, 700 * Math.sin(((h - 6) / 12) * Math.PI))),
    cloudPct: column(() => 50),
    sunElevationDeg: new Float32Array(steps),
    sunAzimuthDeg: new Float32Array(steps),
    knownSteps: new Int32Array(memberCount).fill(steps),
    endedBy: new Array<null>(memberCount).fill(null),
    source: MADE_UP,
  };
}
