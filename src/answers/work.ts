import type { Issue, Tried, WorkAnswer } from '../contract/index.ts';
import { sunTimes } from '../physics/index.ts';
import {
  CAUTIONS,
  dayHours,
  deckFit,
  eveningList,
  nextBay,
  optionFor,
  type Prepared,
  paceOn,
  type Shift,
  skipReason,
  workOrder,
} from '../planner/index.ts';
import { localDayOf, localDayOn } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import { type HourlyWeather, stepStartMs } from '../weather/index.ts';
import { explaining } from './explained.ts';
import type { ReadyJob } from './job.ts';
import { preparedFor } from './prepared.ts';
import { presentWork } from './present-work.ts';
import { tooEarlyDays } from './rain-hours.ts';
import { runThrough } from './run-through.ts';
import { onTried, triedIssues } from './tried.ts';

export type WorkResult =
  | { readonly ok: true; readonly answer: WorkAnswer }
  | { readonly ok: false; readonly issues: readonly Issue[] };

/**
 * 'What happens at what time?' for one day.
 * @param date  'YYYY-MM-DD', local to the site
 * @param tried  costs or a bay other than the job's own, for this question alone
 */
export function answerWork(
  ready: ReadyJob,
  hourly: HourlyWeather,
  nowMs: number,
  date: string,
  tried: Tried = {},
): WorkResult {
  const zone = ready.job.site.timeZone;
  const day = localDayOn(date, zone);
  if (day.endMs <= nowMs) {
    return refuse(`day is ${date}; it must be today (${localDayOf(nowMs, zone).date}) or later.`);
  }
  const wrong = triedIssues(ready, tried);
  if (wrong.length > 0) return { ok: false, issues: wrong };
  const prepared = onTried(preparedFor(ready, hourly, nowMs), tried);
  const lastMs = stepStartMs(prepared.grid, Math.max(0, ...prepared.grid.knownSteps));
  if (day.startMs >= lastMs) {
    return refuse(`day is ${date}; the forecast ends on ${localDayOf(lastMs, zone).date}.`);
  }
  const skipped = skipReason(prepared, day);
  if (skipped !== null) return refuse(`day is ${date}; for this job and crew it is ${skipped}.`);
  const option = optionFor(prepared, day, 'full');
  if (option === null) {
    return refuse(
      `day is ${date}; not enough of the working day is left to open up and be rain-safe.`,
    );
  }
  const { shift } = option.plan;
  const explained = runThrough(explaining(option, null, []));
  const [tooEarly = null] = runThrough(tooEarlyDays(ready, hourly, nowMs, [option]));
  const sun = sunTimes({
    dayStartMs: day.startMs,
    dayEndMs: day.endMs,
    latitudeDeg: ready.job.site.latitudeDeg,
    longitudeDeg: ready.job.site.longitudeDeg,
  });
  return {
    ok: true,
    answer: presentWork({
      prepared,
      option,
      split: nextBay(ready.job, ready.products),
      explained: { ...explained, tooEarly },
      tried,
      lines: workOrder(option),
      deckDry: deckFit(prepared, shift.day.startMs, shift.endMs),
      hours: hoursAround(prepared, shift.startMs, shift.endMs),
      evening: eveningList(option),
      cautions: [...paceWords(prepared, shift), ...CAUTIONS, ...(ready.notes ?? [])],
      sunriseMs: sun.sunriseMs,
      sunsetMs: sun.sunsetMs,
    }),
  };
}

function paceWords(prepared: Prepared, shift: Shift): string[] {
  const { words } = paceOn(prepared, shift);
  return words === '' ? [] : [words];
}

/** Two hours on either side of the shift, so that the dew before and the rain after are seen. */
function hoursAround(prepared: Prepared, startMs: number, endMs: number) {
  const from = Math.floor(startMs / MS_PER_HOUR) * MS_PER_HOUR - 2 * MS_PER_HOUR;
  return dayHours(prepared, from, endMs + 2 * MS_PER_HOUR);
}

function refuse(message: string): WorkResult {
  return { ok: false, issues: [{ path: 'day', message }] };
}
