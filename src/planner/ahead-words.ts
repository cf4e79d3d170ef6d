import type { SectionTask } from '../stages/index.ts';
import { clockText } from '../time/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { AheadSpot } from './ahead.ts';
import type { Held } from './ahead-held.ts';
import { forecastsWords } from './forecast-words.ts';

/** What a foreman can read out: how far ahead to coat, in the open and in the shade of one roof. */

export interface AheadSaid {
  readonly open: AheadSpot;
  /** The first that may be coated in the open, where nothing may now; null = nothing in this shift. */
  readonly openLater: AheadSpot | null;
  /** Null = no sun in the sky, so that all of the roof is alike. */
  readonly shade: AheadSpot | null;
  readonly shadeLater: AheadSpot | null;
}

export function aheadSentence(
  task: SectionTask,
  said: AheadSaid,
  nowMs: number,
  zone: string,
): string {
  const { open, shade } = said;
  const first = spotSentence(task, open, said.openLater, whenWords(open.atMs, nowMs, zone), zone);
  if (shade === null) return first;
  return `${first} ${shadeSentence(task, said, zone)}`;
}

function whenWords(atMs: number, nowMs: number, zone: string): string {
  return Math.abs(atMs - nowMs) < MS_PER_MINUTE ? 'now' : `at ${clockText(atMs, zone)}`;
}

function spotSentence(
  task: SectionTask,
  spot: AheadSpot,
  later: AheadSpot | null,
  when: string,
  zone: string,
): string {
  if (spot.most === 0) return waitSentence(task, spot, later, when, zone);
  return `${task.kind === 'laps' ? 'Prime' : 'Coat'} no more than ${sizeWords(spot.most, task.unit)} ${when}${timesWords(spot, zone)}.${limitWords(task, spot, zone)}`;
}

function shadeSentence(
  task: SectionTask,
  { open, shade, shadeLater }: AheadSaid,
  zone: string,
): string {
  const spot = shade!;
  if (spot.most === 0) {
    const same =
      open.most === 0 && open.held?.rule === spot.held?.rule && open.limit === spot.limit;
    const until =
      shadeLater === null
        ? 'not in this working day'
        : `until about ${laterWords(task, shadeLater, zone)}`;
    return same ? `In the shade ${until}.` : `In the shade wait: ${whyNone(spot, zone)}; ${until}.`;
  }
  return `In the shade ${sizeWords(spot.most, task.unit)}${timesWords(spot, zone)}.`;
}

/** 'touch dry about 10:41, close it by 11:05'; a film closed wet has no such wait. */
function timesWords({ atMs, coatMin, ready, closeByMs }: AheadSpot, zone: string): string {
  const readyMs = ready?.midMs ?? ready?.lateMs ?? null;
  const waits = readyMs !== null && readyMs - atMs - coatMin * MS_PER_MINUTE > MS_PER_MINUTE / 2;
  const from = waits ? `; ready about ${clockText(readyMs, zone)}` : '';
  if (closeByMs === null) return from;
  return `${from}${waits ? ',' : ';'} close it by ${clockText(closeByMs, zone)}`;
}

function limitWords(task: SectionTask, spot: AheadSpot, zone: string): string {
  switch (spot.limit) {
    case 'largest':
      return ` That is ${LARGEST[task.kind]}.`;
    case 'rain':
      return ` Rain may come at ${clockText(spot.endMs!, zone)}.`;
    case 'darkness':
      return ` It gets dark at ${clockText(spot.endMs!, zone)}.`;
    case 'day-end':
      return ` The working day ends at ${clockText(spot.endMs!, zone)}.`;
    default:
      return '';
  }
}

const LARGEST: Readonly<Record<SectionTask['kind'], string>> = {
  field: 'half a sheet, the most that is folded back',
  edges: 'as long a strip as is coated at once',
  upstands: 'as long an upstand as is coated at once',
  laps: 'as long a lap as is primed at once',
};

function waitSentence(
  task: SectionTask,
  spot: AheadSpot,
  later: AheadSpot | null,
  when: string,
  zone: string,
): string {
  const why = whyNone(spot, zone);
  if (spot.limit === 'forecast-ends') return `${capital(why)}.`;
  return later === null
    ? `Coat nothing ${when}, nor later in this working day: ${why}.`
    : `Wait until about ${laterWords(task, later, zone)}: ${why}.`;
}

/** '09:40 (then 12 m²)' */
function laterWords({ unit }: SectionTask, { atMs, most }: AheadSpot, zone: string): string {
  return `${clockText(atMs, zone)} (then ${sizeWords(most, unit)})`;
}

/** Why not even a small section may be coated. */
export function whyNone(spot: AheadSpot, zone: string): string {
  switch (spot.limit) {
    case 'held':
      return heldWords(spot.held!);
    case 'open-time':
      return 'it goes off faster than the smallest section is coated and closed';
    case 'window-empty':
      return 'the first metre would go off before the last one is ready';
    case 'wont-dry':
      return 'it does not get ready in the time looked at';
    case 'rain':
      return `rain may come at ${clockText(spot.endMs!, zone)}, too soon to close anything`;
    case 'darkness':
      return `it gets dark at ${clockText(spot.endMs!, zone)}, too soon to close anything`;
    case 'day-end':
      return `the working day ends at ${clockText(spot.endMs!, zone)}, too soon to close anything`;
    case 'forecast-ends':
      return 'too many of the forecasts end before then, so there is no saying';
    case 'largest':
      return 'nothing is left to coat';
  }
}

/** 'surface 3.1 K above dew point, 5 K asked (data sheet), in 14 of 51 forecasts' */
export function heldWords({ words, whose, count, of, made }: Held): string {
  const owner = WHOSE[whose];
  const share =
    of === 1 || count === of ? '' : `, in ${count} of ${forecastsWords(of, made === true)}`;
  return `${words}${owner === undefined ? '' : ` (${owner})`}${share}`;
}

const WHOSE: Partial<Record<Held['whose'], string>> = {
  'data sheet': 'data sheet',
  firm: 'the firm’s own limit',
  law: 'law',
};

/** Rounded down, so that nobody coats more than was worked out. */
export function sizeWords(size: number, unit: SectionTask['unit']): string {
  const floored = size >= 10 ? Math.floor(size + 1e-6) : Math.floor(size * 10 + 1e-6) / 10;
  return `${floored} ${unit === 'm2' ? 'm²' : 'm'}`;
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
