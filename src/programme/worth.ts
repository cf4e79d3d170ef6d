import type { Calendar, JobTask, Task } from './calendar.ts';
import { dayNumber } from './dates.ts';
import type { VisitWorth } from './types.ts';

const NOTHING = {
  gain: 0,
  weather: 0,
  travel: 0,
  hire: 0,
  wait: 0,
  promise: 0,
  gaps: 0,
  crewChange: 0,
};

/**
 * What a visit brings and costs.
 * @param days  numbers of its days, rising; as many as the crew needs for the job
 */
export function visitWorth(
  calendar: Calendar,
  task: Task,
  crew: number,
  days: readonly number[],
): VisitWorth {
  const own = task.byCrew[crew];
  if (own === null || own === undefined) {
    throw new RangeError(`crew ${crew} cannot do '${task.id}': its visits have no worth`);
  }
  const { prices } = calendar.ask;
  const travel = -own.travelPrice * days.length;
  const hire = -own.hirePrice * days.length;
  if (task.kind === 'filler') {
    const good = days.reduce((sum, d) => sum + calendar.goodness[d]!, 0);
    const gain = task.filler.worth - prices.fillerOnGoodDay * good;
    return summed({ ...NOTHING, gain, travel, hire });
  }
  const { job } = task;
  let chances = 0;
  let weather = 0;
  for (const d of days) {
    const value = own.values[d];
    // A day out of the planner's sight is a day that cannot be judged.
    chances += value?.chance ?? prices.unknownChance;
    weather -= value?.expectedCost ?? 0;
  }
  return summed({
    // Each laying day that goes earns its share, so that no chance of the whole has to be made up.
    gain: (job.worth * chances) / own.lengthDays,
    weather,
    travel,
    hire,
    ...lateness(calendar, task, days[days.length - 1]!),
    gaps: -prices.gapPerDay * gapDays(calendar, crew, days),
    crewChange: startedByOther(calendar, task, crew) ? -prices.crewChange : 0,
  });
}

/** What it costs to leave a task out of the programme: it waits, and breaks promises that fall due. */
export function leftOutWorth(calendar: Calendar, task: Task): number {
  if (task.kind === 'filler') return 0;
  const { wait, promise } = lateness(calendar, task, calendar.ask.prices.leftOutDays);
  return wait + promise;
}

function lateness(
  calendar: Calendar,
  { job }: JobTask,
  lastDay: number,
): { readonly wait: number; readonly promise: number } {
  const wait = -job.priority * job.waitPerDay * lastDay;
  if (job.promise === null) return { wait, promise: 0 };
  const daysLate = calendar.firstDayNumber + lastDay - dayNumber(job.promise.date);
  const { price, perDayLate } = job.promise;
  return { wait, promise: daysLate > 0 ? -price - perDayLate * daysLate : 0 };
}

/** Working days of the crew between the first and the last day of a visit that are not its own. */
function gapDays(calendar: Calendar, crew: number, days: readonly number[]): number {
  const own = new Set(days);
  let gaps = 0;
  for (let d = days[0]!; d < days[days.length - 1]!; d += 1) {
    if (calendar.open[crew * calendar.dayCount + d] === 1 && !own.has(d)) gaps += 1;
  }
  return gaps;
}

function startedByOther(calendar: Calendar, { job }: JobTask, crew: number): boolean {
  return job.startedBy !== null && job.startedBy !== calendar.ask.crews[crew]!.id;
}

function summed(parts: Omit<VisitWorth, 'total'>): VisitWorth {
  const { gain, weather, travel, hire, wait, promise, gaps, crewChange } = parts;
  return {
    ...parts,
    total: gain + weather + travel + hire + wait + promise + gaps + crewChange,
  };
}
