import type { Issue } from '../contract/index.ts';
import type { Job, SiteEvent } from '../planner/index.ts';
import { isoUtc, localDayOn } from '../time/index.ts';

/** How a day went can be said once it has begun; only calling it off on the forecast comes before. */
export function dayEndedIssues(job: Job, events: readonly SiteEvent[]): Issue[] {
  return events.flatMap((event, i) => {
    if (event.kind !== 'day-ended' || event.because === 'forecast') return [];
    if (event.went === 'stood-down' && event.because === 'other') return [];
    const { startMs } = localDayOn(event.date, job.site.timeZone);
    if (event.atMs >= startMs) return [];
    const path = `events.${i}.date`;
    const message = `${path} is ${event.date}, which had not begun on site at ${isoUtc(event.atMs)} (atMs); before it begins a day can only be called off, as stood-down because of the forecast or something other than the weather.`;
    return [{ path, message }];
  });
}
