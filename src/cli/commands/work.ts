import { answerWork } from '../../answers/index.ts';
import { BadInput, badInput } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { printWork } from '../print/work.ts';
import { readJobFile } from '../read-input.ts';
import { findWeather } from '../weather.ts';
import type { JobOptions } from './days.ts';

/** `layfair work JOB.json --day YYYY-MM-DD`: the order of work. */
export async function work(
  file: string,
  options: JobOptions & { readonly day: string },
  io: Io,
): Promise<void> {
  if (!isDate(options.day)) {
    throw badInput('--day', `--day is '${options.day}'; it must be a date such as 2026-05-14.`);
  }
  const ready = readJobFile(file, io);
  const found = await findWeather(ready.job, options, io);
  if (!found.ok) throw badInput('weather', found.why);
  const result = answerWork(ready, found.weather, found.nowMs, options.day);
  if (!result.ok)
    throw new BadInput(result.issues.map((issue) => ({ ...issue, message: `--${issue.message}` })));
  io.out(
    options.json === true
      ? `${JSON.stringify(result.answer, null, 2)}\n`
      : printWork(result.answer, found.label),
  );
}

/** A calendar date that exists. */
function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const ms = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(ms);
}
