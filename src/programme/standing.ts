import type { Calendar, Task, TaskOfCrew } from './calendar.ts';
import { dayNumber } from './dates.ts';
import type { Booking } from './move-types.ts';
import type { Visit } from './visits.ts';

/** Something against a booking as it stands. */
export interface Trouble {
  /** Moves even what is confirmed and frozen. */
  readonly hard: boolean;
  readonly sentence: string;
}

/** How a booking stands under the question as it is now. */
export interface Standing {
  readonly booking: Booking;
  readonly task: Task;
  /** The days of it still to come; null where the crew is gone. */
  readonly visit: Visit | null;
  readonly troubles: readonly Trouble[];
  /** Days still needed beyond those booked. */
  readonly daysShort: number;
  /** Confirmed and about to begin. */
  readonly inFreeze: boolean;
  /** Stays whatever a search would say. */
  readonly fixed: boolean;
  /** Has days after the last one looked at. */
  readonly reachesOut: boolean;
}

/**
 * @param freezeDays  calendar days from today in which a confirmed booking is frozen
 * @returns the bookings with days still to come, in their order
 */
export function standingsOf(
  calendar: Calendar,
  current: readonly Booking[],
  freezeDays: number,
): Standing[] {
  const alone = current.flatMap((booking) => {
    const standing = standingOf(calendar, booking, freezeDays);
    return standing === null ? [] : [standing];
  });
  return withClashes(calendar, alone);
}

function standingOf(calendar: Calendar, booking: Booking, freezeDays: number): Standing | null {
  const task = calendar.tasks[calendar.taskIndex.get(booking.jobId)!]!;
  const numbers = booking.dates
    .map((date) => dayNumber(date) - calendar.firstDayNumber)
    .filter((d) => d >= 0)
    .sort((a, b) => a - b);
  const days = numbers.filter((d) => d < calendar.dayCount);
  if (days.length === 0) return null;
  const crew = calendar.crewIndex.get(booking.crewId);
  const reachesOut = days.length < numbers.length;
  const inFreeze = booking.confirmed && days[0]! < freezeDays;
  const own = crew === undefined ? null : task.byCrew[crew]!;
  const troubles =
    crew === undefined
      ? [{ hard: true, sentence: `crew '${booking.crewId}' is not there any more` }]
      : troublesOf(calendar, task, { crew, days });
  const daysShort = own === null ? 0 : Math.max(0, own.lengthDays - numbers.length);
  return {
    booking,
    task,
    visit: crew === undefined ? null : { crew, days },
    troubles,
    daysShort,
    inFreeze,
    fixed: reachesOut || (inFreeze && daysShort === 0 && !troubles.some(({ hard }) => hard)),
    reachesOut,
  };
}

function troublesOf(calendar: Calendar, task: Task, { crew, days }: Visit): Trouble[] {
  const { ask, dayCount } = calendar;
  const crewName = ask.crews[crew]!.name;
  const own = task.byCrew[crew];
  const troubles: Trouble[] = [];
  const hard = (sentence: string): unknown => troubles.push({ hard: true, sentence });
  if (own === null || own === undefined) {
    hard(`${crewName} has not what the job asks in people or skills`);
    return troubles;
  }
  for (const d of days) {
    const date = ask.days[d]!;
    if (calendar.open[crew * dayCount + d] !== 1) hard(`${crewName} does not work on ${date}`);
    if (d < task.fromDay || d > task.toDay) hard(`${date} is outside ${windowName(task, date)}`);
    const against = weatherTrouble(own, d, date);
    if (against !== null) troubles.push(against);
  }
  return troubles;
}

function windowName(task: Task, date: string): string {
  if (task.kind === 'filler') return 'its dates';
  const { scaffold, materialsFrom } = task.job;
  if (materialsFrom !== null && date < materialsFrom)
    return `the time its materials are there, from ${materialsFrom}`;
  if (scaffold !== null && (date < scaffold.from || date > scaffold.to))
    return `the time its scaffold stands, ${scaffold.from} to ${scaffold.to}`;
  return 'its earliest and latest dates';
}

function weatherTrouble(own: TaskOfCrew, d: number, date: string): Trouble | null {
  const value = own.values[d];
  if (value === null || value === undefined || value.verdict !== 'no') return null;
  if (value.hardStop !== null)
    return { hard: true, sentence: `on ${date} work is ruled out: ${value.hardStop}` };
  const because = value.reason === null ? '' : `: ${value.reason}`;
  return { hard: false, sentence: `the forecast says no for ${date}${because}` };
}

/** Two bookings on one crew's day: the fixed one keeps it, then the confirmed, then the earlier in the list. */
function withClashes(calendar: Calendar, standings: readonly Standing[]): Standing[] {
  const rank = (standing: Standing): number =>
    (standing.fixed ? 0 : 2) + (standing.booking.confirmed ? 0 : 1);
  const order = standings.map((_, n) => n);
  order.sort((a, b) => rank(standings[a]!) - rank(standings[b]!) || a - b);
  const holder = new Map<number, Standing>();
  const settled = [...standings];
  for (const n of order) {
    const standing = standings[n]!;
    const { visit } = standing;
    if (visit === null) continue;
    const slots = visit.days.map((d) => visit.crew * calendar.dayCount + d);
    const taken = slots.find((slot) => holder.has(slot));
    if (taken === undefined) {
      for (const slot of slots) holder.set(slot, standing);
      continue;
    }
    const date = calendar.ask.days[taken % calendar.dayCount]!;
    const other = nameOf(holder.get(taken)!.task);
    const sentence = `its crew is booked twice on ${date}, also for ${other}`;
    settled[n] = {
      ...standing,
      fixed: false,
      troubles: [...standing.troubles, { hard: true, sentence }],
    };
  }
  return settled;
}

export const nameOf = (task: Task): string =>
  task.kind === 'job' ? task.job.name : task.filler.name;
