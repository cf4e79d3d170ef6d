import type { DayOption as DayOptionAnswer } from '../contract/index.ts';
import { type DayOption, rainTimingDraws } from '../planner/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import type { ReadyJob } from './job.ts';

type TooEarly = DayOptionAnswer['tooEarly'];

/** Days remembered for each forecast: those of a few jobs' searches. */
const MOST_KEPT = 100;
const keptOn = new WeakMap<HourlyWeather, Map<string, TooEarly>>();

/**
 * How far the hours in which rain falls move each day's chance, where that is too far to call it; null =
 * it is not. Drawing the hours anew is slow where it has to be done at all, and the order of work asks
 * for what the search of its day has found already. In between, a caller may stop.
 */
export function* tooEarlyDays(
  ready: ReadyJob,
  hourly: HourlyWeather,
  nowMs: number,
  options: readonly DayOption[],
): Generator<void, readonly TooEarly[]> {
  const kept = keptOn.get(hourly) ?? new Map<string, TooEarly>();
  keptOn.set(hourly, kept);
  const key = ({ day, startMs, way, plan }: DayOption): string =>
    JSON.stringify([ready.job.id, nowMs, day.date, startMs, way, plan.work.sectionM2]);
  const asked = options.filter((option) => !kept.has(key(option)));
  const spreads = yield* rainTimingDraws({ ...ready, hourly, nowMs }, asked);
  asked.forEach((option, n) => {
    const spread = spreads[n];
    kept.set(key(option), spread?.tooEarly ? { low: spread.low, high: spread.high } : null);
  });
  const found = options.map((option) => kept.get(key(option)) ?? null);
  for (const oldest of kept.keys()) {
    if (kept.size <= MOST_KEPT) break;
    kept.delete(oldest);
  }
  return found;
}
