import type { Calendar, Task } from './calendar.ts';

/** A crew and the days it would do a task on, by number. */
export interface Visit {
  readonly crew: number;
  readonly days: readonly number[];
}

/**
 * Every visit that keeps the hard rules, crew by crew in order of days.
 * @param held  days that are booked already and may stay, though nobody would newly plan them
 */
export function visitsOf(calendar: Calendar, task: Task, held: Visit | null = null): Visit[] {
  return calendar.ask.crews.flatMap((_, crew) => visitsOfCrew(calendar, task, crew, held));
}

/** May this task be planned on this crew's day, as far as the day alone is asked? */
export function dayAllowed(calendar: Calendar, task: Task, crew: number, day: number): boolean {
  const own = task.byCrew[crew];
  if (own === null || own === undefined) return false;
  if (day < task.fromDay || day > task.toDay) return false;
  if (calendar.open[crew * calendar.dayCount + day] !== 1) return false;
  if (task.kind === 'filler') return true;
  const value = own.values[day];
  return value !== null && value !== undefined && isFit(value.verdict);
}

/** Days that cannot be judged are no days to promise. */
const isFit = (verdict: string): boolean => verdict === 'go' || verdict === 'doubtful';

function visitsOfCrew(calendar: Calendar, task: Task, crew: number, held: Visit | null): Visit[] {
  const own = task.byCrew[crew];
  if (own === null || own === undefined) return [];
  // A gap is a day on which the crew works, but elsewhere: weekends and holidays are none.
  const working: number[] = [];
  for (let d = 0; d < calendar.dayCount; d += 1)
    if (calendar.open[crew * calendar.dayCount + d] === 1) working.push(d);
  const isHeld = (d: number): boolean => held?.crew === crew && held.days.includes(d);
  const allowed = working.map((d) => isHeld(d) || dayAllowed(calendar, task, crew, d));
  const gapsAllowed = task.kind === 'job' ? task.job.gapDaysAllowed : 0;
  const visits: Visit[] = [];
  const days: number[] = [];
  const goOn = (at: number, gapsLeft: number): void => {
    if (days.length === own.lengthDays) {
      visits.push({ crew, days: [...days] });
      return;
    }
    const last = days.length === 0 ? at : Math.min(working.length - 1, at + gapsLeft);
    for (let n = at; n <= last; n += 1) {
      if (!allowed[n]) continue;
      days.push(working[n]!);
      goOn(n + 1, gapsLeft - (n - at));
      days.pop();
    }
  };
  for (let n = 0; n + own.lengthDays <= working.length; n += 1) goOn(n, gapsAllowed);
  return visits;
}
