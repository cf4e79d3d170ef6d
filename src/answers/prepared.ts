import { type Prepared, prepare } from '../planner/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import type { ReadyJob } from './job.ts';

interface Kept {
  readonly ready: ReadyJob;
  readonly nowMs: number;
  readonly prepared: Prepared;
}

/** Some 40 MB each with 51 forecasts, all surfaces and clocks. */
const MOST_KEPT = 3;
const keptOn = new WeakMap<HourlyWeather, Kept[]>();

/**
 * The weather on a job's roof. Days, order of work, clocks and the way on ask for the same within
 * minutes: the very same job, forecast and moment are worked out once.
 */
export function preparedFor(ready: ReadyJob, hourly: HourlyWeather, nowMs: number): Prepared {
  const kept = keptOn.get(hourly) ?? [];
  const known = kept.find((one) => one.ready === ready && one.nowMs === nowMs);
  const prepared = known?.prepared ?? prepare({ ...ready, hourly, nowMs });
  const others = kept.filter((one) => one !== known);
  keptOn.set(hourly, [{ ready, nowMs, prepared }, ...others].slice(0, MOST_KEPT));
  return prepared;
}
