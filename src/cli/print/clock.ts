import type { ClockAnswer, ClockFace } from '../../contract/index.ts';
import { clockText, shortDayText } from '../../time/index.ts';
import { wrap } from './table.ts';
import { weatherLines } from './weather.ts';

type Range = NonNullable<ClockAnswer['touchDry']>;

export function printClock(answer: ClockAnswer, zone: string, nowMs: number): string {
  const { product, coatedMs, coatedUntilMs, weather } = answer;
  const until = coatedUntilMs > coatedMs ? ` to ${clockText(coatedUntilMs, zone)}` : '';
  const coated = `${shortDayText(coatedMs, zone)} ${clockText(coatedMs, zone)}${until} (${zone})`;
  const lines = [
    ...wrap(`${product.name}, coated ${coated}`, ''),
    ...wrap(answer.sentence, ''),
    ...(weather === null
      ? ['Under weather that stays as given.']
      : weatherLines(weather, nowMs, zone)),
    ...eventLines(answer, zone),
    '',
    ...answer.cautions.flatMap((caution) => wrap(caution, '  ')),
  ];
  return `${lines.join('\n')}\n`;
}

const FACE_WORDS: Readonly<Record<ClockFace, string>> = {
  deck: 'deck',
  sheet: 'folded-back sheet',
  upstand: 'upstand',
  'lap-top': 'top of the lap',
  'lap-bottom': 'bottom of the lap',
};

/** Every moment the product has, then the same face by face. Withheld ones say so. */
function eventLines(answer: ClockAnswer, zone: string): string[] {
  const { touchDry, usableUntil, rainAfter, footTraffic, fullCure, faces, withheld } = answer;
  const at = (ms: number | null): string => (ms === null ? 'later' : timeText(ms, answer, zone));
  const row = (words: string, range: Range | null): string[] =>
    range === null
      ? []
      : [
          `  ${words.padEnd(26)}${at(range.midMs).padEnd(14)}${at(range.earlyMs)} to ${at(range.lateMs)}`,
        ];
  const rows = [
    ...row('touch dry', touchDry),
    ...row('usable until', usableUntil),
    ...row('rain does no harm from', rainAfter),
    ...row('light foot traffic', footTraffic),
    ...row('full cure', fullCure),
    ...(faces.length < 2
      ? []
      : faces.flatMap(({ face, touchDry: dry, usableUntil: end }) => [
          ...row(`${FACE_WORDS[face]}: dry`, dry),
          ...row(`${FACE_WORDS[face]}: until`, end),
        ])),
  ];
  if (rows.length === 0) return [];
  const head = `  ${''.padEnd(26)}${'about'.padEnd(14)}early to late${withheld ? '; ready is not promised' : ''}`;
  return ['', head, ...rows];
}

/** The day stands beside the time where it is another than the day it was coated. */
function timeText(ms: number, { coatedMs }: ClockAnswer, zone: string): string {
  const day = shortDayText(ms, zone);
  const time = clockText(ms, zone);
  return day === shortDayText(coatedMs, zone) ? time : `${day.slice(4)} ${time}`;
}
