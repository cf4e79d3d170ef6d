import type { Booking } from './move-types.ts';
import type { CrewDays, FillerWork, JobAsk, ProgrammeAsk } from './types.ts';

/**
 * Tasks for which something differs between two questions: what they ask, what the planner says of a day
 * that both look at, the crew they are booked on, a crew that could now do them. A further day at the
 * end of the days looked at is news only for what is not booked.
 */
export function touchedTasks(
  before: ProgrammeAsk,
  now: ProgrammeAsk,
  current: readonly Booking[],
): Set<string> {
  const touched = new Set<string>();
  const common = new Set(now.days.filter((date) => before.days.includes(date)));
  const all = [...now.jobs, ...now.fillers];
  const addAll = (): void => {
    for (const { id } of all) touched.add(id);
  };
  if (!same(before.travel, now.travel) || !same(before.prices, now.prices)) addAll();
  if (!same(before.bankHolidays, now.bankHolidays)) addAll();

  const was = new Map([...before.jobs, ...before.fillers].map((it) => [it.id, it]));
  for (const it of all) {
    const former = was.get(it.id);
    if (former === undefined || !same(seen(former, common), seen(it, common))) touched.add(it.id);
  }
  const wasCrew = new Map(before.crews.map((crew) => [crew.id, crew]));
  const isCrew = new Set(now.crews.map((crew) => crew.id));
  for (const crew of now.crews) {
    const former = wasCrew.get(crew.id);
    if (former !== undefined && same(former, crew)) continue;
    for (const { jobId, crewId } of current) if (crewId === crew.id) touched.add(jobId);
    if (former === undefined || couldDoMore(former, crew)) addAll();
  }
  for (const { jobId, crewId } of current) if (!isCrew.has(crewId)) touched.add(jobId);
  // A job that has gone out of the programme, finished or called off, leaves its days to others.
  const stillThere = new Set(all.map(({ id }) => id));
  if ([...was.keys()].some((id) => !stillThere.has(id))) addAll();
  if (now.days[now.days.length - 1] !== before.days[before.days.length - 1]) {
    const booked = new Set(current.map(({ jobId }) => jobId));
    for (const { id } of all) if (!booked.has(id)) touched.add(id);
  }
  return touched;
}

function couldDoMore(before: CrewDays, now: CrewDays): boolean {
  return (
    now.people > before.people ||
    now.skills.some((skill) => !before.skills.includes(skill)) ||
    now.workDays.some((day) => !before.workDays.includes(day)) ||
    before.daysOff.some((date) => !now.daysOff.includes(date)) ||
    (now.worksBankHolidays && !before.worksBankHolidays) ||
    !same([before.base, before.dayCost, before.hired], [now.base, now.dayCost, now.hired])
  );
}

function seen(it: JobAsk | FillerWork, common: ReadonlySet<string>): unknown {
  if (!('work' in it)) return it;
  const work = it.work.map((own) => ({
    ...own,
    days: own.days.filter((day) => common.has(day.date)),
  }));
  return { ...it, work };
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
