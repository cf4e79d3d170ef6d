import type { ReadyJob } from '../../src/answers/index.ts';
import {
  type DayPlan,
  type Prepared,
  planFor,
  prepare,
  simulateDay,
  skipReason,
} from '../../src/planner/index.ts';
import { surfaceSpecsFor } from '../../src/stages/index.ts';
import { localDaysBetween } from '../../src/time/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../../src/units/index.ts';
import type { HourlyWeather } from '../../src/weather/index.ts';

const STARTS = 10;
const APART_MS = 30 * MS_PER_MINUTE;

/** A job with the weather on its roof known, and nothing else worked out yet. */
export function withRoofWeather(ready: ReadyJob, hourly: HourlyWeather, nowMs: number): Prepared {
  const prepared = prepare({ ...ready, hourly, nowMs });
  const { roof, buildUp, site } = prepared.job;
  for (const { kind } of surfaceSpecsFor({ roof, buildUp, ...site })) prepared.surface(kind);
  return prepared;
}

/** The plans of all working days of the coming fortnight. */
export function plansAhead(prepared: Prepared): DayPlan[] {
  const { nowMs, job } = prepared;
  return localDaysBetween(nowMs, nowMs + 14 * 24 * MS_PER_HOUR, job.site.timeZone)
    .filter((day) => skipReason(prepared, day) === null)
    .map((day) => planFor(prepared, day));
}

/** Runs in every forecast from ten starts, each of them on every day, until so many are through. */
export function runDays(plans: readonly DayPlan[], runs: number): void {
  for (let left = runs, start = 0; ; start = (start + 1) % STARTS) {
    for (const plan of plans) {
      const { prepared, shift } = plan;
      const startMs = Math.max(prepared.nowMs, shift.startMs) + start * APART_MS;
      for (let m = 0; m < prepared.grid.memberCount; m += 1) {
        if (left === 0) return;
        simulateDay(plan, m, { startMs });
        left -= 1;
      }
    }
  }
}
