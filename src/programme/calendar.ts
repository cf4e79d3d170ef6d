import { askProblems } from './check-ask.ts';
import { dayNumber, weekdayOf } from './dates.ts';
import { travelMinutes, travelPrice } from './travel.ts';
import type { CrewDays, DayValue, FillerWork, JobAsk, ProgrammeAsk } from './types.ts';

/** A job or a filler with its look-ups by number instead of by date and name. */
export type Task = JobTask | FillerTask;

export interface JobTask {
  readonly kind: 'job';
  readonly id: string;
  readonly job: JobAsk;
  /** For each crew: the work as it would do it and the price of its way; null = it cannot. */
  readonly byCrew: readonly (TaskOfCrew | null)[];
  readonly fromDay: number;
  readonly toDay: number;
}

export interface FillerTask {
  readonly kind: 'filler';
  readonly id: string;
  readonly filler: FillerWork;
  readonly byCrew: readonly (TaskOfCrew | null)[];
  readonly fromDay: number;
  readonly toDay: number;
}

export interface TaskOfCrew {
  readonly lengthDays: number;
  /** By number of the day; null = the planner says nothing of it. Empty for a filler. */
  readonly values: readonly (DayValue | null)[];
  readonly travelMin: number;
  readonly travelPrice: number;
  readonly hirePrice: number;
}

/** The question with days and crews numbered: slot = crew x days + day. */
export interface Calendar {
  readonly ask: ProgrammeAsk;
  readonly firstDayNumber: number;
  readonly dayCount: number;
  readonly slotCount: number;
  /** By slot: 1 = the crew works that day. */
  readonly open: Uint8Array;
  readonly crewIndex: ReadonlyMap<string, number>;
  readonly tasks: readonly Task[];
  readonly taskIndex: ReadonlyMap<string, number>;
  /** By day: mean over the jobs of the best chance that day, 0..1. */
  readonly goodness: Float64Array;
}

/** @throws Error with every fault of the question, a sentence each */
export function calendarOf(ask: ProgrammeAsk): Calendar {
  const problems = askProblems(ask);
  if (problems.length > 0) throw new Error(problems.join('\n'));
  const firstDayNumber = dayNumber(ask.days[0]!);
  const dayCount = ask.days.length;
  const open = new Uint8Array(ask.crews.length * dayCount);
  ask.crews.forEach((crew, c) => {
    ask.days.forEach((date, d) => {
      if (works(crew, date, ask.bankHolidays)) open[c * dayCount + d] = 1;
    });
  });
  const dayOf = new Map(ask.days.map((date, d) => [date, d]));
  const tasks = [
    ...ask.jobs.map((job) => jobTask(job, ask, dayOf)),
    ...ask.fillers.map((filler) => fillerTask(filler, ask)),
  ];
  return {
    ask,
    firstDayNumber,
    dayCount,
    slotCount: open.length,
    open,
    crewIndex: new Map(ask.crews.map((crew, c) => [crew.id, c])),
    tasks,
    taskIndex: new Map(tasks.map((task, t) => [task.id, t])),
    goodness: goodnessOf(ask, dayOf),
  };
}

function works(crew: CrewDays, date: string, bankHolidays: readonly string[]): boolean {
  if (!crew.workDays.includes(weekdayOf(dayNumber(date)))) return false;
  if (crew.daysOff.includes(date)) return false;
  return crew.worksBankHolidays || !bankHolidays.includes(date);
}

function jobTask(job: JobAsk, ask: ProgrammeAsk, dayOf: ReadonlyMap<string, number>): JobTask {
  const bySize = new Map(
    job.work.map((work) => {
      const values = new Array<DayValue | null>(ask.days.length).fill(null);
      for (const value of work.days) {
        const d = dayOf.get(value.date);
        if (d !== undefined) values[d] = value;
      }
      return [work, values] as const;
    }),
  );
  const byCrew = ask.crews.map((crew) => {
    const fits = job.work.filter((work) => work.people <= crew.people);
    const work = fits.sort((a, b) => b.people - a.people)[0];
    if (work === undefined || !hasAll(crew.skills, job.skills)) return null;
    const travelMin = travelMinutes(crew.base, job.place, ask.travel);
    return {
      lengthDays: work.lengthDays,
      values: bySize.get(work)!,
      travelMin,
      travelPrice: travelPrice(crew, travelMin),
      hirePrice: crew.hired ? crew.dayCost : 0,
    };
  });
  return {
    kind: 'job',
    id: job.id,
    job,
    byCrew,
    ...windowOf(
      ask,
      [job.earliest, job.materialsFrom, job.scaffold?.from ?? null],
      [job.latest, job.scaffold?.to ?? null],
    ),
  };
}

function fillerTask(filler: FillerWork, ask: ProgrammeAsk): FillerTask {
  const byCrew = ask.crews.map((crew) => {
    if (!hasAll(crew.skills, filler.skills)) return null;
    const travelMin =
      filler.place === null ? 0 : travelMinutes(crew.base, filler.place, ask.travel);
    return {
      lengthDays: 1,
      values: [],
      travelMin,
      travelPrice: travelPrice(crew, travelMin),
      hirePrice: crew.hired ? crew.dayCost : 0,
    };
  });
  const window = windowOf(ask, [filler.earliest], [filler.latest]);
  return { kind: 'filler', id: filler.id, filler, byCrew, ...window };
}

const hasAll = (have: readonly string[], need: readonly string[]): boolean =>
  need.every((skill) => have.includes(skill));

/** First and last number of the days that every one of these dates leaves; none when from > to. */
function windowOf(
  ask: ProgrammeAsk,
  from: readonly (string | null)[],
  to: readonly (string | null)[],
): { readonly fromDay: number; readonly toDay: number } {
  const first = dayNumber(ask.days[0]!);
  const after = from.map((date) => (date === null ? 0 : dayNumber(date) - first));
  const until = to.map((date) => (date === null ? ask.days.length - 1 : dayNumber(date) - first));
  return {
    fromDay: Math.max(0, ...after),
    toDay: Math.min(ask.days.length - 1, ...until),
  };
}

function goodnessOf(ask: ProgrammeAsk, dayOf: ReadonlyMap<string, number>): Float64Array {
  const goodness = new Float64Array(ask.days.length);
  for (const job of ask.jobs) {
    const best = new Float64Array(ask.days.length);
    for (const work of job.work) {
      for (const value of work.days) {
        const d = dayOf.get(value.date);
        if (d === undefined || value.verdict === 'no') continue;
        best[d] = Math.max(best[d]!, value.chance ?? ask.prices.unknownChance);
      }
    }
    for (let d = 0; d < best.length; d += 1) goodness[d]! += best[d]! / ask.jobs.length;
  }
  return goodness;
}
