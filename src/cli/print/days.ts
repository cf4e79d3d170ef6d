import type { DayOption, DaysAnswer } from '../../contract/index.ts';
import { clockText, localDayOn, shortDayText } from '../../time/index.ts';
import { table, wrap } from './table.ts';
import { weatherLines } from './weather.ts';

/** Most days told about one by one. */
const TOLD = 3;

export function printDays(answer: DaysAnswer, oldLabel: string | null): string {
  const { job, bay, nowMs } = answer;
  const zone = job.timeZone;
  const lines = [`${job.name}: laying day ${bay.number} of ${bay.of}, ${bay.areaM2.toFixed(0)} m²`];
  if (answer.weather === null) {
    lines.push('', ...wrap(answer.noForecast ?? 'No current forecast.', ''), 'No chance is given.');
    return finish(lines, answer);
  }
  lines.push(...weatherLines(answer.weather, nowMs, zone, oldLabel), '');
  const ranked = answer.days.filter((day) => day.rank !== null).sort((a, b) => a.rank! - b.rank!);
  const rest = answer.days.filter((day) => day.rank === null);
  lines.push(
    ...table([
      [
        '',
        'Day',
        'Call',
        'Start',
        'Last adhesive',
        'Rain-safe by',
        'Done',
        'Chance',
        'Caught open',
        'Cost',
      ],
      ...ranked.map((day) => row(day, answer)),
    ]),
  );
  for (const day of ranked.slice(0, TOLD)) lines.push('', ...tell(day, zone));
  if (rest.length > 0) {
    lines.push('', 'Not offered:');
    for (const day of rest) lines.push(`  ${dayName(day, zone)}  ${day.sentence}`);
  }
  lines.push(
    '',
    `Chance: ${ranked[0]?.chance?.checked ?? 'not yet checked against outcomes here'}; taken down for count, lead time and choosing the start.`,
  );
  const { costs, threshold } = answer;
  lines.push(
    `Cost is expected cost in ${costs.currency}: standing down ${costs.standDown}, shortened ${costs.shortened}, caught open ${costs.caughtOpen}. Stand down when the chance of being caught open passes ${(threshold * 100).toFixed(0)} %.`,
  );
  return finish(lines, answer);
}

function row(day: DayOption, { job, weather }: DaysAnswer): string[] {
  const at = (ms: number | null) => (ms === null ? '–' : clockText(ms, job.timeZone));
  return [
    String(day.rank),
    dayName(day, job.timeZone),
    day.verdict,
    at(day.startMs),
    at(day.lastAdhesiveMs),
    at(day.rainSafeByMs),
    at(day.finishMs),
    day.chance === null ? '–' : `${day.chance.words} (${day.chance.count} of ${day.chance.of})`,
    `${day.outcomes.caughtOpen} of ${weather?.count ?? 0}`,
    day.expectedCost === null ? '–' : String(day.expectedCost),
  ];
}

function tell(day: DayOption, zone: string): string[] {
  const lines = [`${dayName(day, zone)}`, ...wrap(day.sentence, '  ')];
  const { finished, shortened, stoodDown, caughtOpen, unknown } = day.outcomes;
  lines.push(
    `  finished ${finished}, shortened but sealed ${shortened}, stood down before opening ${stoodDown}, caught open ${caughtOpen}${unknown > 0 ? `, forecast ends ${unknown}` : ''}`,
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
