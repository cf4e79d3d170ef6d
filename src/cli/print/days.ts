import type { DayOption, DaysAnswer } from '../../contract/index.ts';
import { forecastsWords } from '../../planner/index.ts';
import { clockText, localDayOn, shortDayText } from '../../time/index.ts';
import { money } from '../../units/index.ts';
import { dayDetail } from './day-detail.ts';
import { table, wrap } from './table.ts';
import { triedLines } from './tried.ts';
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
  lines.push(
    ...weatherLines(answer.weather, nowMs, zone),
    ...wrap(answer.search.words, ''),
    ...triedLines(answer.tried, answer.costs.currency),
    ...neverFitsLines(answer),
    '',
  );
  const ranked = answer.days.filter((day) => day.rank !== null).sort((a, b) => a.rank! - b.rank!);
  const rest = answer.days.filter((day) => day.rank === null);
  if (ranked.length === 0) lines.push('No day of this forecast can be judged.');
  else lines.push(...table([HEADS, ...ranked.map((day) => row(day, answer))]), ...legend(answer));
  for (const day of ranked.slice(0, TOLD)) {
    lines.push('', dayName(day, zone), ...dayDetail(day, zone, answer.costs.currency));
  }
  if (rest.length > 0) {
    lines.push('', 'Not offered:');
    for (const day of rest) lines.push(...wrap(day.sentence, `  ${dayName(day, zone)}  `));
  }
  return finish(lines, answer);
}

/** Why no day of the forecast can do, before the days are told one by one. */
function neverFitsLines({ neverFits }: DaysAnswer): string[] {
  if (neverFits === null) return [];
  return ['', ...wrap(`It fits no day: ${neverFits.words}`, ''), ...wrap(neverFits.change, '')];
}

const HEADS = ['', 'Day', 'Call', 'Start', 'Rain-safe by', 'Chance', 'Caught open', 'Cost'];

function legend({ costs, weather, days }: DaysAnswer): string[] {
  const checked = days.find(({ chance }) => chance !== null)?.chance?.checked;
  return [
    '',
    ...wrap(
      'Rain-safe by: no later than this in the share of finishing forecasts that the job asks for.',
      '',
    ),
    ...wrap(
      `${countLegend(weather)} Chance: taken down for count, lead time and choosing the start; ${checked ?? 'not yet checked against outcomes here'}.`,
      '',
    ),
    ...wrap(
      `Cost: expected, in ${costs.currency}: called off the evening before or on site, shortened, caught open. Ranked by it and ${money(costs.waitPerDay, costs.currency)} for each day of waiting.`,
      '',
    ),
  ];
}

function countLegend(weather: DaysAnswer['weather']): string {
  if (weather?.made) {
    return `Caught open: how many of the ${forecastsWords(weather.count, true)} catch the roof open; together they count for fewer than a weather centre's own would.`;
  }
  return 'Caught open: forecasts that catch the roof open, of those that reach the end of the day.';
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

const callCell = ({ verdict, tooEarly }: DayOption): string =>
  tooEarly === null ? CALLS[verdict] : 'too early to call';

function row(day: DayOption, { job }: DaysAnswer): string[] {
  const at = (ms: number | null) => (ms === null ? '–' : clockText(ms, job.timeZone));
  return [
    String(day.rank),
    dayName(day, job.timeZone),
    callCell(day),
    at(day.startMs),
    at(day.rainSafeByMs),
    chanceCell(day),
    day.chance === null ? '–' : `${day.outcomes.caughtOpen} of ${day.chance.of}`,
    day.expectedCost === null ? '–' : String(day.expectedCost),
  ];
}

function dayName(day: DayOption, zone: string): string {
  return shortDayText(localDayOn(day.date, zone).startMs, zone);
}

function finish(lines: string[], answer: DaysAnswer): string {
  lines.push('', ...answer.cautions.flatMap((caution) => wrap(caution, '  ')));
  return `${lines.join('\n')}\n`;
}
