import type { Calendar } from './calendar.ts';
import { dayNumberOf } from './dates.ts';
import type { Booking } from './move-types.ts';

/** Everything that is wrong with bookings as data, a sentence each; [] = nothing. */
export function bookingProblems(
  calendar: Calendar,
  current: readonly Booking[],
  freezeDays: number,
): string[] {
  const problems: string[] = [];
  if (!(freezeDays >= 0)) problems.push(`freezeDays (${freezeDays}) must be 0 or more.`);
  const seen = new Set<string>();
  for (const { jobId, dates, resources } of current) {
    const at = `booking of '${jobId}'`;
    if (seen.has(jobId)) problems.push(`${at}: a job has one booking, this is another.`);
    seen.add(jobId);
    if (!calendar.taskIndex.has(jobId)) problems.push(`${at}: there is no such job or filler.`);
    if (dates.length === 0) problems.push(`${at}: at least one date is needed.`);
    for (const date of new Set(dates.filter((it, n) => dates.indexOf(it) !== n)))
      problems.push(`${at}: ${date} is there more than once.`);
    for (const date of [...dates, ...resources.flatMap((resource) => resource.dates)])
      if (dayNumberOf(date) === null) problems.push(`${at}: ${date} must be a date, 'YYYY-MM-DD'.`);
    for (const { name, charge } of resources)
      if (!(charge >= 0)) problems.push(`${at}: charge of ${name} (${charge}) must be 0 or more.`);
  }
  return problems;
}
