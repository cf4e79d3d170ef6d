import { answerAhead } from '../../answers/index.ts';
import { AHEAD_WHATS, type AheadWhat, FEWEST_PEOPLE, MOST_PEOPLE } from '../../contract/index.ts';
import { BadInput, type InputIssue, NoForecast } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { printAhead } from '../print/ahead.ts';
import { quote, readInstant, readNumber } from '../read-input.ts';
import { readJobOnSite } from '../read-readings.ts';
import { readTried } from '../read-tried.ts';
import { checkCovers, findWeather } from '../weather.ts';
import type { JobOptions } from './days.ts';

export interface AheadOptions extends JobOptions {
  readonly at: string;
  readonly what: string;
  readonly people?: string;
  readonly bay?: string;
}

/** `layfair ahead JOB.json --at ISO`: how far ahead to coat. */
export async function ahead(file: string, options: AheadOptions, io: Io): Promise<void> {
  const ready = readJobOnSite(file, options, io);
  const at = readInstant('--at', options.at, ready.job.site.timeZone);
  const what = readWhat(options.what);
  const people = options.people === undefined ? null : readPeople(options.people);
  const issues = [at, what, people].filter(
    (read): read is InputIssue => typeof read === 'object' && read !== null,
  );
  if (issues.length > 0) throw new BadInput(issues);
  const { bay = null } = readTried(options, ready);
  const found = await findWeather(ready.job, options, io);
  if (!found.ok) throw new NoForecast(found.why);
  checkCovers(found, ready.job.site.timeZone);
  const result = answerAhead({
    ready,
    hourly: found.weather,
    nowMs: found.nowMs,
    atMs: at as number,
    what: what as AheadWhat,
    people: people as number | null,
    bayAreaM2: bay,
  });
  if (!result.ok) throw new BadInput(result.issues.map((issue) => asOption(issue, options)));
  io.out(
    options.json === true
      ? `${JSON.stringify(result.answer, null, 2)}\n`
      : printAhead(result.answer),
  );
}

function readWhat(text: string): AheadWhat | InputIssue {
  const known = AHEAD_WHATS.find((what) => what === text);
  if (known !== undefined) return known;
  const message = `--what is ${quote(text)}; it must be one of ${AHEAD_WHATS.join(', ')}.`;
  return { path: '--what', message };
}

function readPeople(text: string): number | InputIssue {
  const read = readNumber('--people', text, FEWEST_PEOPLE, MOST_PEOPLE);
  if (typeof read === 'number' && Number.isInteger(read)) return read;
  const message = `--people is ${quote(text)}; it must be a whole number from ${FEWEST_PEOPLE} to ${MOST_PEOPLE}.`;
  return { path: '--people', message };
}

/** What the answer names by its plain name is an option here, and told with its value. */
function asOption({ path, message }: InputIssue, { at }: AheadOptions): InputIssue {
  if (path === 'at') {
    return { path: '--at', message: `--${message.replace(/^at /, `at is ${quote(at)}; it `)}` };
  }
  return path === 'what' ? { path: '--what', message: `--${message}` } : { path, message };
}
