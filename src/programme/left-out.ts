import type { Calendar, Task } from './calendar.ts';
import type { LeftOut, LeftOutCode } from './types.ts';
import { dayAllowed, visitsOf } from './visits.ts';
import { leftOutWorth, visitWorth } from './worth.ts';

/** Why a task is in no crew's days: the first rule that leaves it nothing. */
export function whyLeftOut(calendar: Calendar, task: Task): LeftOut {
  const name = task.kind === 'job' ? task.job.name : task.filler.name;
  const say = (code: LeftOutCode, sentence: string): LeftOut => ({
    jobId: task.id,
    code,
    sentence: `${name}: ${sentence}`,
  });
  const crews = task.byCrew.flatMap((own, crew) => (own === null ? [] : [crew]));
  if (crews.length === 0) {
    return say('no crew can', noCrewWords(calendar, task));
  }
  const days = Array.from({ length: calendar.dayCount }, (_, d) => d);
  const inWindow = days.filter((d) => d >= task.fromDay && d <= task.toDay);
  const works = (crew: number, d: number): boolean =>
    calendar.open[crew * calendar.dayCount + d] === 1;
  if (!crews.some((crew) => inWindow.some((d) => works(crew, d)))) {
    return say(
      'no day allowed',
      `no working day of a crew that can lies inside ${windowWords(task)}.`,
    );
  }
  if (!crews.some((crew) => days.some((d) => dayAllowed(calendar, task, crew, d)))) {
    return say('no day fit', 'the forecast leaves no fit day inside its dates.');
  }
  const visits = visitsOf(calendar, task);
  if (visits.length === 0) {
    return say(
      'not enough days together',
      'there are fit days, but not as many as it needs one after the other with one crew.',
    );
  }
  const without = leftOutWorth(calendar, task);
  if (!visits.some(({ crew, days }) => visitWorth(calendar, task, crew, days).total > without)) {
    return say(
      'costs more than it brings',
      'on every day open to it, it is expected to cost more than it brings.',
    );
  }
  return say('others are worth more', 'every day and crew that fits it is worth more elsewhere.');
}

function noCrewWords({ ask }: Calendar, task: Task): string {
  if (ask.crews.length === 0) return 'there is no crew.';
  if (task.kind === 'job' && task.job.work.length === 0)
    return 'the planner has looked at no day for it.';
  const skills = task.kind === 'job' ? task.job.skills : task.filler.skills;
  const parts = skills.length === 0 ? [] : [`the skills it asks (${skills.join(', ')})`];
  if (task.kind === 'job')
    parts.push(`the ${Math.min(...task.job.work.map((work) => work.people))} people it takes`);
  return `no crew has ${parts.join(' and ')}.`;
}

function windowWords(task: Task): string {
  if (task.kind === 'filler') return 'its earliest and latest dates';
  const { job } = task;
  const parts = [
    ...(job.earliest !== null || job.latest !== null ? ['its earliest and latest dates'] : []),
    ...(job.materialsFrom !== null ? [`materials on site from ${job.materialsFrom}`] : []),
    ...(job.scaffold !== null ? [`scaffold ${job.scaffold.from} to ${job.scaffold.to}`] : []),
  ];
  return parts.length === 0 ? 'the days looked at' : parts.join(', ');
}
