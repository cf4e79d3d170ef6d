import { bestAtHand, checkPlace, type FeedClient, FORECAST_DAYS } from '../feed/index.ts';
import type { Job } from '../planner/index.ts';
import type { HourlyWeather } from '../weather/index.ts';

export type JobWeather =
  | { readonly ok: true; readonly hourly: HourlyWeather; readonly key: string }
  | { readonly ok: false; readonly why: string };

/** Hands out the weather a job may be planned on. */
export interface WeatherDesk {
  forJob(job: Job): Promise<JobWeather>;
  close(): Promise<void>;
}

/** Two forecasts with one key are the same. */
function keyOf({ source, quarterRain: quarters }: HourlyWeather): string {
  const hours = `${source.model}@${source.issuedMs ?? source.fetchedMs}`;
  return quarters === undefined ? hours : `${hours}+${quarters.model}@${quarters.knownMs}`;
}

/**
 * Demo jobs get the bundled invented forecast and nothing else; all others get the live feed, the
 * last good forecast labelled as old, or the sentence why there is none.
 * @param feed  null where no forecast service is set up, with the sentence to show
 */
export function weatherDesk(
  demo: HourlyWeather,
  feed: FeedClient | { readonly why: string },
): WeatherDesk {
  return {
    async forJob(job) {
      if (job.demo) return { ok: true, hourly: demo, key: 'demo' };
      if ('why' in feed) return { ok: false, why: `No current forecast. ${feed.why}` };
      const answer = await bestAtHand(feed, { ...job.site, days: FORECAST_DAYS });
      const found = answer.ok ? answer.weather : answer.lastGood?.weather;
      if (found === undefined)
        return { ok: false, why: `No current forecast. ${answer.ok ? '' : answer.message}`.trim() };
      const elsewhere = checkPlace(found, job.site);
      if (elsewhere !== null) return { ok: false, why: `No current forecast. ${elsewhere}` };
      // The last good forecast carries the label 'old forecast' among its notes.
      return {
        ok: true,
        hourly: found,
        key: keyOf(found),
      };
    },
    async close() {
      if (!('why' in feed)) await feed.close();
    },
  };
}
