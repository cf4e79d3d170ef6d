import { TEST_PANEL_WM2K } from './rates.ts';
import type { SheetWeather } from './sheet-flags.ts';

/** A film in dry weather that does not change, for questions asked with numbers instead of a forecast. */
export function constantFilm(args: {
  readonly startMs: number;
  readonly hours: number;
  /** As warm as the surface where left out. */
  readonly airTempC?: number;
  readonly surfaceTempC: number;
  readonly dewPointC: number;
  readonly windMps: number;
}): SheetWeather {
  const stepMs = 300_000;
  const steps = args.hours * 12;
  return {
    startMs: args.startMs,
    stepMs,
    steps,
    memberCount: 1,
    knownSteps: Int32Array.of(steps),
    airTempC: new Float32Array(steps).fill(args.airTempC ?? args.surfaceTempC),
    rainMm: new Float32Array(steps),
    surfaceTempC: new Float32Array(steps).fill(args.surfaceTempC),
    dewPointC: new Float32Array(steps).fill(args.dewPointC),
    windMps: new Float32Array(steps).fill(args.windMps),
    toFilm: 1,
    substrateWm2K: TEST_PANEL_WM2K,
  };
}
