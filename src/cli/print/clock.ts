import type { ClockAnswer } from '../../contract/index.ts';
import { clockText, shortDayText } from '../../time/index.ts';
import { wrap } from './table.ts';
import { weatherLines } from './weather.ts';

export function printClock(answer: ClockAnswer, zone: string, nowMs: number): string {
  const { product, coatedMs, weather } = answer;
  const coated = `${shortDayText(coatedMs, zone)} ${clockText(coatedMs, zone)} (${zone})`;
  const lines = [
    ...wrap(`${product.name}, coated ${coated}`, ''),
    ...wrap(answer.sentence, ''),
    ...(weather === null
      ? ['Under weather that stays as given.']
      : weatherLines(weather, nowMs, zone)),
    '',
    ...answer.cautions.flatMap((caution) => wrap(caution, '  ')),
  ];
  return `${lines.join('\n')}\n`;
}
