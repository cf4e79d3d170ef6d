import { answerNow } from '../../answers/index.ts';
import { BadInput, NoForecast } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { printNow } from '../print/now.ts';
import { quote, readInstant } from '../read-input.ts';
import { readJobOnSite } from '../read-readings.ts';
import { readTried } from '../read-tried.ts';
import { readWorkState, type WorkStateOptions } from '../read-work-state.ts';
import { checkCovers, findWeather } from '../weather.ts';
import type { JobOptions } from './days.ts';

export interface NowOptions extends JobOptions, WorkStateOptions {
  readonly at: string;
  readonly bay?: string;
}

/** `layfair now JOB.json --at ISO --done ... --coated ...`: the best way on from this minute. */
export async function now(file: string, options: NowOptions, io: Io): Promise<void> {
  const ready = readJobOnSite(file, options, io);
  const zone = ready.job.site.timeZone;
  const atMs = readInstant('--at', options.at, zone);
  if (typeof atMs !== 'number') throw new BadInput([atMs]);
  const state = readWorkState(options, atMs, zone);
  const { bay = null } = readTried(options, ready);
  const found = await findWeather(ready.job, options, io);
  if (!found.ok) throw new NoForecast(found.why);
  checkCovers(found, zone);
  const result = answerNow({
    ready,
    hourly: found.weather,
    nowMs: found.nowMs,
    atMs,
    bayAreaM2: bay,
    work: { kind: 'told', state },
  });
  if (!result.ok) {
    throw new BadInput(
      result.issues.map(({ path, message }) => ({
        path: `--${path}`,
        message: `--${path === 'at' ? message.replace(/^at /, `at is ${quote(options.at)}; it `) : message}`,
      })),
    );
  }
  io.out(
    options.json === true ? `${JSON.stringify(result.answer, null, 2)}\n` : printNow(result.answer),
  );
}
