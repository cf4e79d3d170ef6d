import type { WorkAnswer, WorkItem } from '../../contract/index.ts';
import { clockText, localDayOn, longDayText } from '../../time/index.ts';
import { wrap } from './table.ts';
import { weatherLines } from './weather.ts';

export function printWork(answer: WorkAnswer, oldLabel: string | null): string {
  const { job, day, bay } = answer;
  const zone = job.timeZone;
  const at = (ms: number | null) => (ms === null ? '–' : clockText(ms, zone));
  const lines = [
    `${job.name}: order of work for ${longDayText(localDayOn(day.date, zone).startMs, zone)}, laying day ${bay.number} of ${bay.of}, ${bay.areaM2.toFixed(0)} m²`,
    ...weatherLines(answer.weather, answer.nowMs, zone, oldLabel),
    '',
    ...wrap(day.sentence, ''),
    `Daylight ${at(answer.sunriseMs)} to ${at(answer.sunsetMs)}. Sections of ${answer.sectionM2.toFixed(1)} m². Last safe starts at ${(answer.confidence * 100).toFixed(0)} % of forecasts.`,
  ];
  if (answer.items.length === 0) {
    lines.push('', 'No forecast finishes this day, so there is no order of work to give.');
  } else {
    lines.push('', 'The evening before');
    for (const item of answer.evening) lines.push(...wrap(item, '  [ ] '));
    lines.push('', 'Order of work');
    for (const item of answer.items) lines.push(...itemLines(item, zone));
    lines.push(
      '',
      `Rain-safe ${at(answer.rainSafeMs)}. Night seal if work stops early: ${answer.nightSeal.lengthM.toFixed(1)} m, ${answer.nightSeal.minutes} min.`,
    );
  }
  lines.push('', ...answer.cautions.flatMap((caution) => wrap(caution, '  ')));
  return `${lines.join('\n')}\n`;
}

function itemLines(item: WorkItem, zone: string): string[] {
  const at = (ms: number) => clockText(ms, zone);
  const lines: string[] = [];
  if (item.wait !== null) lines.push(`         … wait ${item.wait.minutes} min: ${item.wait.why}`);
  const range = item.earlyMs === item.lateMs ? '' : ` (${at(item.earlyMs)} to ${at(item.lateMs)})`;
  const marks = [
    item.noReturn ? 'POINT OF NO RETURN' : null,
    item.oneGo ? 'in one go' : null,
    item.lastSafeStartMs === null ? null : `last safe start ${at(item.lastSafeStartMs)}`,
  ].filter((mark) => mark !== null);
  lines.push(`  ${at(item.startMs)}–${at(item.endMs)}  ${item.title}${range}`);
  const more: string[] = [];
  if (item.product !== null) {
    more.push(
      `${item.product.name}${item.product.amount === null ? '' : `, ${item.product.amount}`}`,
    );
  }
  more.push(`${item.people} ${item.people === 1 ? 'person' : 'people'}`, ...marks);
  lines.push(`               ${more.join('; ')}`);
  if (item.clock !== null) lines.push(`               ${clockWords(item.clock, zone)}`);
  for (const hold of item.holdPoints) lines.push(...wrap(`HOLD POINT: ${hold}`, '               '));
  for (const caution of item.cautions)
    lines.push(...wrap(`Caution: ${caution}`, '               '));
  return lines;
}

function clockWords(clock: NonNullable<WorkItem['clock']>, zone: string): string {
  const at = (ms: number | null) =>
    ms === null ? 'later than the forecast reaches' : clockText(ms, zone);
  if (clock.closeWhileWet) return `close while wet; usable until ${at(clock.usableUntilMs)}`;
  return `touch dry about ${at(clock.touchDryMs)} (${at(clock.touchDryEarlyMs)} to ${at(clock.touchDryLateMs)}), usable until ${at(clock.usableUntilMs)}; the finger test decides`;
}
