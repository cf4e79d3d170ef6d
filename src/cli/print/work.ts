import type { WorkAnswer } from '../../contract/index.ts';
import { clockText, localDayOn, longDayText } from '../../time/index.ts';
import { halfLines } from './half-sheet.ts';
import { entriesOf } from './sections.ts';
import { stopLines } from './stops.ts';
import { wrap } from './table.ts';
import { triedLines } from './tried.ts';
import { weatherLines } from './weather.ts';
import { itemLines, ToldSoFar } from './work-item.ts';

export function printWork(answer: WorkAnswer): string {
  const { job, day, bay, nightSeal } = answer;
  const zone = job.timeZone;
  const at = (ms: number | null) => (ms === null ? '–' : clockText(ms, zone));
  const date = longDayText(localDayOn(day.date, zone).startMs, zone);
  const lines = [
    ...wrap(
      `${job.name}: order of work for ${date}, laying day ${bay.number} of ${bay.of}, ${bay.areaM2.toFixed(0)} m²`,
      '',
    ),
    ...weatherLines(answer.weather, answer.nowMs, zone),
    ...triedLines(answer.tried, answer.costs.currency),
    '',
    ...wrap(day.sentence, ''),
    ...wrap(
      `${daylightWords(answer)} Sections of ${answer.sectionM2.toFixed(1)} m². Last safe starts at ${(answer.confidence * 100).toFixed(0)} % of ${answer.weather.made ? 'those made from one forecast' : 'forecasts'}.`,
      '',
    ),
  ];
  lines.push(deckWords(answer));
  if (answer.items.length === 0) {
    lines.push('', 'No forecast finishes this day, so there is no order of work to give.');
  } else {
    lines.push(
      '',
      'The evening before',
      ...answer.evening.flatMap((item) => wrap(item, '  [ ] ')),
      '',
      'Order of work',
      '  In brackets: when the same work starts in all but the earliest and latest tenth of forecasts.',
      ...orderLines(answer),
      '',
      ...stopLines(answer),
      '',
      ...wrap(
        `Rain-safe ${at(answer.rainSafeMs)} where the day goes as listed. Night seal if work stops early: ${nightSeal.lengthM.toFixed(1)} m, ${nightSeal.minutes} min.`,
        '',
      ),
    );
  }
  lines.push('', ...answer.cautions.flatMap((caution) => wrap(caution, '  ')));
  return `${lines.join('\n')}\n`;
}

/** Near the poles the sun may stay up, or down, all day; which of the two the rules of the day tell. */
function daylightWords({ sunriseMs, sunsetMs, job }: WorkAnswer): string {
  const at = (ms: number) => clockText(ms, job.timeZone);
  if (sunriseMs === null && sunsetMs === null) return 'The sun neither rises nor sets that day.';
  if (sunriseMs === null) return `Daylight until ${at(sunsetMs!)}.`;
  if (sunsetMs === null) return `Daylight from ${at(sunriseMs)}.`;
  return `Daylight ${at(sunriseMs)} to ${at(sunsetMs)}.`;
}

function deckWords({ deckDry, job }: WorkAnswer): string {
  if (!deckDry.known) return deckDry.why;
  const at = (ms: number | null) => (ms === null ? 'not that day' : clockText(ms, job.timeZone));
  const { earlyMs, midMs, lateMs } = deckDry;
  return `Deck dry from about ${at(midMs)} (${at(earlyMs)} to ${at(lateMs)}): touch it, tissue test.`;
}

function orderLines({ items, job }: WorkAnswer): string[] {
  const told = new ToldSoFar();
  return entriesOf(items).flatMap((entry) =>
    entry.kind === 'half'
      ? halfLines(entry.half, job.timeZone, told)
      : itemLines(entry.item, job.timeZone, told),
  );
}
