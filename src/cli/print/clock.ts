import type { ClockAnswer } from '../../contract/index.ts';
import { clockText, shortDayText } from '../../time/index.ts';
import { wrap } from './table.ts';
import { weatherLines } from './weather.ts';

export function printClock(answer: ClockAnswer, zone: string): string {
  const lines = [
    `${answer.product.name}, coated ${shortDayText(answer.coatedMs, zone)} ${clockText(answer.coatedMs, zone)} (${zone})`,
    ...wrap(answer.sentence, ''),
  ];
  if (answer.weather !== null)
    lines.push(...weatherLines(answer.weather, answer.coatedMs, zone, null));
  lines.push('', ...answer.cautions.flatMap((caution) => wrap(caution, '  ')));
  return `${lines.join('\n')}\n`;
}
