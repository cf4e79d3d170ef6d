import type { AheadAnswer, AheadSpot, AheadWork } from '../../contract/index.ts';
import { sizeWords } from '../../planner/index.ts';
import { clockText, shortDayText } from '../../time/index.ts';
import { table, wrap } from './table.ts';
import { weatherLines } from './weather.ts';

const TITLES: Readonly<Record<AheadWork['kind'], string>> = {
  field: 'Field',
  edges: 'Edges without an upstand',
  upstands: 'Upstands with their edge',
  laps: 'Laps',
};

/** How far ahead to coat: the sentence first, then each half hour of the working day. */
export function printAhead(answer: AheadAnswer): string {
  const { job, bay, atMs, people, works } = answer;
  const zone = job.timeZone;
  const at = `${shortDayText(atMs, zone)} ${clockText(atMs, zone)}`;
  const lines = [
    ...wrap(`${job.name}: laying day ${bay.number} of ${bay.of}, ${at}, crew of ${people}`, ''),
    ...weatherLines(answer.weather, answer.nowMs, zone),
    ...works.flatMap((work) => workLines(work, zone)),
    '',
    ...answer.notes.flatMap((note) => wrap(note, '')),
    '',
    ...answer.cautions.flatMap((caution) => wrap(caution, '  ')),
  ];
  return `${lines.join('\n')}\n`;
}

function workLines(work: AheadWork, zone: string): string[] {
  const hands = `${work.people} ${work.people === 1 ? 'person' : 'people'} at it`;
  const rows = work.hours.map(({ open, shade }) => [
    clockText(open.atMs, zone),
    ...cells(open, work, zone),
    ...(shade === null ? ['', ''] : cells(shade, work, zone)),
    open.whyNone ?? LIMITS[open.limit] ?? '',
  ]);
  return [
    '',
    ...wrap(`${TITLES[work.kind]}, ${work.product.name}; ${hands}`, ''),
    ...wrap(work.sentence, ''),
    ...work.holdPoints.flatMap((hold) => wrap(hold, '  [ ] ')),
    '',
    ...table([
      ['Coat at', 'At most', 'Close by', 'In shade', 'Close by', 'What limits it'],
      ...rows,
    ]).flatMap((row) => wrapRow(row)),
  ];
}

function cells(spot: AheadSpot, work: AheadWork, zone: string): [string, string] {
  if (spot.most === 0) return ['none', ''];
  const by = spot.closeByMs === null ? 'no end' : clockText(spot.closeByMs, zone);
  return [sizeWords(spot.most, work.unit), by];
}

const LIMITS: Partial<Record<AheadSpot['limit'], string>> = {
  'open-time': 'open time',
  largest: 'as much as is coated at once',
  rain: 'rain',
  'day-end': 'end of the working day',
  darkness: 'darkness',
};

const REASON_COLUMN = 'Coat at  At most  Close by  In shade  Close by  '.length;

/** A long reason runs on under itself. */
function wrapRow(row: string): string[] {
  const reason = row.slice(REASON_COLUMN);
  return wrap(reason, row.slice(0, REASON_COLUMN)).length === 0
    ? [row]
    : wrap(reason, row.slice(0, REASON_COLUMN)).map((line, n) =>
        n === 0 ? line : ' '.repeat(REASON_COLUMN) + line.trimStart(),
      );
}
