import { join } from 'node:path';
import { weatherMisuse } from '../answers/index.ts';
import {
  bestAtHand,
  checkPlace,
  createFeedClient,
  FORECAST_DAYS,
  feedConfigFromEnv,
  readWeatherFile,
} from '../feed/index.ts';
import type { Job } from '../planner/index.ts';
import { clockText, isoUtc, longDayText } from '../time/index.ts';
import { seededRandom } from '../units/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import { BadInput, badInput } from './bad-input.ts';
import type { Io } from './io.ts';
import { readBytes, readInstant } from './read-input.ts';

export type WeatherFound =
  | {
      readonly ok: true;
      readonly weather: HourlyWeather;
      readonly nowMs: number;
    }
  | { readonly ok: false; readonly why: string; readonly nowMs: number };

/**
 * The weather for a job: the file given, the bundled invented forecast for a demo job, else the live
 * feed; and the clock that goes with it. Invented weather brings its own clock and is refused for
 * any real job.
 * @param zone  where `--now` without an offset is local
 */
export async function findWeather(
  job: Job | null,
  options: { readonly weather?: string; readonly now?: string },
  io: Io,
  zone: string | null = job?.site.timeZone ?? null,
): Promise<WeatherFound> {
  const given = options.now === undefined ? null : readInstant('--now', options.now, zone);
  if (given !== null && typeof given !== 'number') throw new BadInput([given]);
  const file = options.weather ?? (job?.demo ? join(io.dataDir, 'demo', 'ensemble.json') : null);
  if (file !== null) {
    const read = readWeatherFile(
      readBytes(file, 'weather file'),
      job === null ? {} : { near: job.site },
    );
    if (!read.ok) throw new BadInput(read.issues);
    const misuse =
      job === null
        ? null
        : (weatherMisuse(job, read.weather) ?? checkPlace(read.weather, job.site));
    if (misuse !== null) throw badInput('weather', misuse);
    const { source } = read.weather;
    const nowMs = given ?? (source.invented ? source.issuedMs : null) ?? io.systemNowMs();
    return { ok: true, weather: read.weather, nowMs };
  }
  if (job === null)
    throw badInput('weather', 'Give a forecast with --weather, or a job with --job.');
  return askFeed(job, given ?? io.systemNowMs(), io);
}

/**
 * Nothing is known before a forecast's first hour, so that no day before it can be judged.
 * @param zone  the site's: times are told in it
 */
export function checkCovers(
  { weather, nowMs }: { weather: HourlyWeather; nowMs: number },
  zone: string,
): void {
  const { startMs } = weather;
  if (nowMs >= startMs) return;
  const told = (ms: number): string => `${clockText(ms, zone)} on ${longDayText(ms, zone)}`;
  throw badInput(
    'weather',
    `The forecast starts at ${told(startMs)}, site time, later than the time planned for, ${told(nowMs)}; give a forecast that covers it, or a later time: --now ${isoUtc(startMs)}.`,
  );
}

async function askFeed(job: Job, nowMs: number, io: Io): Promise<WeatherFound> {
  const config = feedConfigFromEnv(io.env);
  if (!config.live) return { ok: false, why: `No current forecast. ${config.why}`, nowMs };
  const client = createFeedClient({
    ...config,
    now: () => nowMs,
    sleep: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
    random: seededRandom(nowMs),
    cacheDir: io.keepDir,
  });
  try {
    const answer = await bestAtHand(client, { ...job.site, days: FORECAST_DAYS });
    if (answer.ok) return { ok: true, weather: answer.weather, nowMs };
    // The last good forecast carries the label 'old forecast' among its notes.
    if (answer.lastGood !== null) return { ok: true, weather: answer.lastGood.weather, nowMs };
    return { ok: false, why: `No current forecast. ${answer.message}`, nowMs };
  } finally {
    await client.close();
  }
}
