import { answerWork } from '../../answers/index.ts';
import { calendarDate } from '../../contract/index.ts';
import { BadInput, badInput, NoForecast } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { printWork } from '../print/work.ts';
import { quote } from '../read-input.ts';
import { readJobOnSite } from '../read-readings.ts';
import { readTried, type TriedOptions } from '../read-tried.ts';
import { checkCovers, findWeather } from '../weather.ts';
import type { JobOptions } from './days.ts';

export interface WorkOptions extends JobOptions, TriedOptions {
  readonly day: string;
}

/** `layfair work JOB.json --day YYYY-MM-DD`: the order of work. */
export async function work(file: string, options: WorkOptions, io: Io): Promise<void> {
  if (!calendarDate.safeParse(options.day).success) {
    throw badInput(
      '--day',
      `--day is ${quote(options.day)}; it must be a date that exists, such as 2026-05-14.`,
    );
  }
  const ready = readJobOnSite(file, options, io);
  const tried = readTried(options, ready);
  const found = await findWeather(ready.job, options, io);
  if (!found.ok) throw new NoForecast(found.why);
  checkCovers(found, ready.job.site.timeZone);
  const result = answerWork(ready, found.weather, found.nowMs, options.day, tried);
  if (!result.ok) {
    throw new BadInput(
      result.issues.map(({ path, message }) => ({ path: `--${path}`, message: `--${message}` })),
    );
  }
  io.out(
    options.json === true
      ? `${JSON.stringify(result.answer, null, 2)}\n`
      : printWork(result.answer),
  );
}
