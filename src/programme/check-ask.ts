import { dayNumberOf } from './dates.ts';
import type { ProgrammeAsk } from './types.ts';

/** Everything that is wrong with a question, a sentence each; [] = nothing. */
export function askProblems(ask: ProgrammeAsk): string[] {
  const problems: string[] = [];
  const say = (holds: boolean, sentence: string): void => {
    if (!holds) problems.push(sentence);
  };
  const number = (name: string, value: number, low: number, high = Number.MAX_VALUE): void =>
    say(
      value >= low && value <= high,
      `${name} (${value}) must be ${high === Number.MAX_VALUE ? `${low} or more` : `in ${low}..${high}`}.`,
    );
  const date = (name: string, value: string | null): void =>
    say(
      value === null || dayNumberOf(value) !== null,
      `${name} (${value}) must be a date, 'YYYY-MM-DD'.`,
    );

  say(ask.days.length > 0, 'days: at least one day is needed.');
  for (const [n, day] of ask.days.entries()) {
    date(`days[${n}]`, day);
    if (n > 0) {
      const before = dayNumberOf(ask.days[n - 1]!);
      say(
        before === null || dayNumberOf(day) === before + 1,
        `days[${n}] (${day}) must be the day after days[${n - 1}] (${ask.days[n - 1]}).`,
      );
    }
  }
  for (const [n, day] of ask.bankHolidays.entries()) date(`bankHolidays[${n}]`, day);
  const { travel, prices } = ask;
  number('travel.roadFactor', travel.roadFactor, 1, 10);
  number('travel.speedKmh', travel.speedKmh, 1, 200);
  number('travel.fixedMin', travel.fixedMin, 0);
  number('prices.gapPerDay', prices.gapPerDay, 0);
  number('prices.crewChange', prices.crewChange, 0);
  number('prices.fillerOnGoodDay', prices.fillerOnGoodDay, 0);
  number('prices.unknownChance', prices.unknownChance, 0, 1);
  number('prices.leftOutDays', prices.leftOutDays, ask.days.length);
  const once = (kind: string, ids: readonly string[]): void => {
    for (const id of new Set(ids.filter((id, n) => ids.indexOf(id) !== n))) {
      problems.push(`${kind} '${id}' is there more than once.`);
    }
  };
  once(
    'crew',
    ask.crews.map((crew) => crew.id),
  );
  once('job', [...ask.jobs.map((job) => job.id), ...ask.fillers.map((filler) => filler.id)]);
  for (const crew of ask.crews) {
    const at = `crew '${crew.id}'`;
    number(`${at}: people`, crew.people, 1);
    number(`${at}: dayCost`, crew.dayCost, 0);
    number(`${at}: shiftMin`, crew.shiftMin, 1, 1440);
    for (const day of crew.workDays) number(`${at}: workDays`, day, 1, 7);
    for (const day of crew.daysOff) date(`${at}: daysOff`, day);
  }
  for (const job of ask.jobs) {
    const at = `job '${job.id}'`;
    date(`${at}: earliest`, job.earliest);
    date(`${at}: latest`, job.latest);
    date(`${at}: materialsFrom`, job.materialsFrom);
    date(`${at}: scaffold.from`, job.scaffold?.from ?? null);
    date(`${at}: scaffold.to`, job.scaffold?.to ?? null);
    date(`${at}: promise.date`, job.promise?.date ?? null);
    number(`${at}: promise.price`, job.promise?.price ?? 0, 0);
    number(`${at}: promise.perDayLate`, job.promise?.perDayLate ?? 0, 0);
    number(`${at}: priority`, job.priority, 0, 100);
    number(`${at}: worth`, job.worth, 0);
    number(`${at}: waitPerDay`, job.waitPerDay, 0);
    number(`${at}: gapDaysAllowed`, job.gapDaysAllowed, 0, 3);
    say(
      Number.isInteger(job.gapDaysAllowed),
      `${at}: gapDaysAllowed (${job.gapDaysAllowed}) must be a whole number.`,
    );
    for (const work of job.work) {
      const by = `${at}: work for ${work.people}`;
      number(`${by}: people`, work.people, 1);
      number(`${by}: lengthDays`, work.lengthDays, 1);
      say(
        Number.isInteger(work.lengthDays),
        `${by}: lengthDays (${work.lengthDays}) must be a whole number.`,
      );
      once(
        `${by}: day`,
        work.days.map((day) => day.date),
      );
      for (const day of work.days) {
        date(`${by}: date`, day.date);
        number(`${by}: chance on ${day.date}`, day.chance ?? 0, 0, 1);
        number(`${by}: expectedCost on ${day.date}`, day.expectedCost, 0);
      }
    }
  }
  for (const filler of ask.fillers) {
    const at = `filler '${filler.id}'`;
    date(`${at}: earliest`, filler.earliest);
    date(`${at}: latest`, filler.latest);
    number(`${at}: worth`, filler.worth, 0);
  }
  return problems;
}
