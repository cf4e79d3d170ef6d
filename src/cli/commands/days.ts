import { answerDays, answerWithoutForecast, runThrough } from '../../answers/index.ts';
import type { Io } from '../io.ts';
import { printDays } from '../print/days.ts';
import { readJobOnSite } from '../read-readings.ts';
import { checkCovers, findWeather } from '../weather.ts';

export interface JobOptions {
  readonly weather?: string;
  readonly now?: string;
  readonly products?: string;
  readonly json?: boolean;
  readonly reading?: readonly string[];
}

/** `layfair days JOB.json`: laying days ranked. */
export async function days(file: string, options: JobOptions, io: Io): Promise<void> {
  const ready = readJobOnSite(file, options, io);
  const found = await findWeather(ready.job, options, io);
  if (found.ok) checkCovers(found);
  const answer = found.ok
    ? runThrough(answerDays(ready, found.weather, found.nowMs))
    : answerWithoutForecast(ready, found.nowMs, found.why);
  io.out(options.json === true ? `${JSON.stringify(answer, null, 2)}\n` : printDays(answer));
}
