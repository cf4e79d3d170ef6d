import type { DayOption, DaysAnswer } from '../../contract/index.ts';
import { forecastsWords } from '../../planner/index.ts';
import { clockText, localDayOn, shortDayText } from '../../time/index.ts';
import { table, wrap } from './table.ts';
import { weatherLines } from './weather.ts';

/** Most days told about one by one. */
const TOLD = 3;

export function printDays(answer: DaysAnswer): string {
  const { job, bay, nowMs } = answer;
  const zone = job.timeZone;
  const lines = wrap(
    `${job.name}: laying day ${bay.number} of ${bay.of}, ${bay.areaM2.toFixed(0)} m²`,
    '',
  );
  if (answer.weather === null) {
    lines.push('', ...wrap(answer.noForecast ?? 'No current forecast.', ''), 'No chance is given.');
    return finish(lines, answer);
  }
  lines.push(...weatherLines(answer.weather, nowMs, zone), '');
  const ranked = answer.days.filter((day) => day.rank !== null).sort((a, b) => a.rank! - b.rank!);
  const rest = answer.days.filter((day) => day.rank === null);
  if (ranked.length === 0) lines.push('No day of this forecast can be judged.');
  else lines.push(...table([HEADS, ...ranked.map((day) => row(day, answer))]), ...legend(answer));
  for (const day of ranked.slice(0, TOLD)) lines.push('', ...tell(day, zone));
  if (rest.length > 0) {
    lines.push('', 'Not offered:');
    for (const day of rest) lines.push(...wrap(day.sentence, `  ${dayName(day, zone)}  `));
  }
  return finish(lines, answer);
}

const HEADS = [
  '',
  'Day',
  'Call',
  'Start',
  'Last coat',
  'Rain-safe',
  'Done',
  'Chance',
  'Finish',
  'Caught',
  'Cost',
];

function legend({ costs, threshold, weather }: DaysAnswer): string[] {
  const { currency, standDown, shortened, caughtOpen, waitPerDay } = costs;
  return [
    '',
    ...wrap(
      'Last coat, rain-safe, done: no later than this in the share of finishing forecasts that the job asks for.',
      '',
    ),
    ...wrap(
      `${countLegend(weather)} Chance: taken down for count, lead time and choosing the start; not yet checked against outcomes here.`,
      '',
    ),
    ...wrap(
      `Cost: expected, in ${currency}: standing down ${standDown}, shortened ${shortened}, caught open ${caughtOpen}. Ranked by it and ${waitPerDay} for each day of waiting. Stand down when the chance of being caught open passes ${(threshold * 100).toFixed(0)} %.`,
      '',
    ),
  ];
}

function countLegend(weather: DaysAnswer['weather']): string {
  if (weather?.made) {
    return `Finish, caught: how many of the ${forecastsWords(weather.count, true)} finish, and catch the roof open; together they count for fewer than a weather centre's own would.`;
  }
  return `Finish, caught: forecasts of ${weather?.count ?? 0} that finish, and that catch the roof open.`;
}

/** Short enough for a column; the sentences below the table say it whole. */
function chanceCell({ chance }: DayOption): string {
  if (chance === null || chance.tenths === null) return '–';
  return chance.count === 0 ? 'none' : chance.words;
}

/** The same words as on the page. */
const CALLS: Readonly<Record<DayOption['verdict'], string>> = {
  go: 'lay',
  doubtful: 'doubtful',
  no: 'leave it',
  unknown: 'not known',
};

function row(day: DayOption, { job }: DaysAnswer): string[] {
  const at = (ms: number | null) => (ms === null ? '–' : clockText(ms, job.timeZone));
  return [
    String(day.rank),
    dayName(day, job.timeZone),
    CALLS[day.verdict],
    at(day.startMs),
    at(day.lastAdhesiveMs),
    at(day.rainSafeByMs),
    at(day.finishMs),
    chanceCell(day),
    String(day.outcomes.finished),
    String(day.outcomes.caughtOpen),
    day.expectedCost === null ? '–' : String(day.expectedCost),
  ];
}

function tell(day: DayOption, zone: string): string[] {
  const lines = [`${dayName(day, zone)}`, ...wrap(day.sentence, '  ')];
  const { finished, shortened, stoodDown, caughtOpen, unknown } = day.outcomes;
  lines.push(
    ...wrap(
      `finished ${finished}, shortened but sealed ${shortened}, stood down before opening ${stoodDown}, caught open ${caughtOpen}${unknown > 0 ? `, forecast ends ${unknown}` : ''}`,
      '  ',
    ),
  );
  for (const reason of day.reasons.slice(0, 3)) {
    const around = reason.aroundMs === null ? '' : ` around ${clockText(reason.aroundMs, zone)}`;
    lines.push(
      ...wrap(`could stop it: ${reason.words}${around} (${reason.count}; ${reason.whose})`, '  '),
    );
  }
  return lines;
}

function dayName(day: DayOption, zone: string): string {
  return shortDayText(localDayOn(day.date, zone).startMs, zone);
}

function finish(lines: string[], answer: DaysAnswer): string {
  lines.push('', ...answer.cautions.flatMap((caution) => wrap(caution, '  ')));
  return `${lines.join('\n')}\n`;
}
