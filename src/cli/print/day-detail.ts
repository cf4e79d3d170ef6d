import type { DayOption, Reason, Turn } from '../../contract/index.ts';
import { clockText, localDayOn, shortDayText, spanText } from '../../time/index.ts';
import { MS_PER_MINUTE, money } from '../../units/index.ts';
import { wrap } from './table.ts';

/** What stands behind a day's line, a row for each thing. */
export function dayDetail(day: DayOption, zone: string, currency: string): string[] {
  const at = (ms: number): string => momentOn(day.date, ms, zone);
  return [
    ...wrap(day.sentence, '  '),
    ...entry(
      'too early',
      day.tooEarly &&
        `the chance moves between ${tenIn(day.tooEarly.low)} and ${tenIn(day.tooEarly.high)} with the hours the rain falls in: too early to call.`,
    ),
    ...entry('times', timesWords(day, at)),
    ...entry('how often', outcomeWords(day)),
    ...wayLines(day, at),
    ...entry('in all', day.wholeJob?.words),
    ...day.reasons.flatMap((reason) => {
      const around =
        reason.aroundMs === null ? '' : ` around ${at(reason.aroundMs)}${betweenWords(reason, at)}`;
      return entry('could stop it', `${reason.words}${around} (${reason.count}; ${reason.whose})`);
    }),
    ...entry('limit', day.limit?.words),
    ...day.turns.flatMap((turn) =>
      entry(
        'would turn it',
        `${turn.words} ${gainWords(turn.gainCost, currency)}${listWords(turn, day.date)}`,
      ),
    ),
    ...entry('call it off', day.callOff?.words),
    ...entry(
      'cost',
      day.expectedCost === null
        ? null
        : `${money(day.expectedCost, currency)} expected. ${day.value?.words ?? ''}`,
    ),
    ...entry('last safe start', safeStartWords(day, at)),
  ];
}

/** Less than this apart is one moment. */
const APART_MS = 15 * MS_PER_MINUTE;

function betweenWords({ earlyMs, lateMs }: Reason, at: (ms: number) => string): string {
  if (earlyMs === null || lateMs === null || lateMs - earlyMs < APART_MS) return '';
  return `, ${at(earlyMs)} to ${at(lateMs)}`;
}

const NAME_WIDTH = 17;

function entry(name: string, words: string | null | undefined): string[] {
  return words ? wrap(words, `  ${`${name}:`.padEnd(NAME_WIDTH)}`) : [];
}

/** '09:15', with its day in front where that is another. */
function momentOn(date: string, ms: number, zone: string): string {
  const { startMs, endMs } = localDayOn(date, zone);
  const time = clockText(ms, zone);
  return ms >= startMs && ms < endMs ? time : `${shortDayText(ms, zone)} ${time}`;
}

function timesWords(day: DayOption, at: (ms: number) => string): string | null {
  const { openFromMs, rainSafeByMs, openMin, lastAdhesiveMs, finishMs } = day;
  const parts = [
    openFromMs === null || rainSafeByMs === null
      ? null
      : `opened about ${at(openFromMs)}, rain-safe by ${at(rainSafeByMs)}${openMin === null ? '' : `, open for ${spanText(openMin * MS_PER_MINUTE)} or less`}`,
    lastAdhesiveMs === null ? null : `last coat by ${at(lastAdhesiveMs)}`,
    finishMs === null ? null : `done by ${at(finishMs)}`,
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : parts.join('; ');
}

function outcomeWords({ outcomes }: DayOption): string {
  const { finished, shortened, stoodDown, caughtOpen, unknown } = outcomes;
  const ends = unknown > 0 ? `, forecast ends ${unknown}` : '';
  return `finished ${finished}, shortened but sealed ${shortened}, stood down before opening ${stoodDown}, caught open ${caughtOpen}${ends}`;
}

function wayLines({ way, date }: DayOption, at: (ms: number) => string): string[] {
  if (way === null) return [];
  const parts = [
    way.smallerBay,
    way.order === null ? null : `Order of work: ${way.order}.`,
    way.askBayM2 === null
      ? null
      : `Its list: layfair work JOB.json --day ${date} --bay ${way.askBayM2}.`,
    `${way.people} people, knocking off at ${at(way.offMs)}.`,
  ];
  return entry('laid as', parts.filter((part) => part !== null).join(' '));
}

function listWords({ askBayM2 }: Turn, date: string): string {
  return askBayM2 === null
    ? ''
    : ` Its list: layfair work JOB.json --day ${date} --bay ${askBayM2}.`;
}

function gainWords(gain: number, currency: string): string {
  if (gain === 0) return 'Expected to cost the same.';
  return `Expected to cost ${money(Math.abs(gain), currency)} ${gain > 0 ? 'less' : 'more'}.`;
}

function safeStartWords(
  { safeStarts, safeStartsNote }: DayOption,
  at: (ms: number) => string,
): string | null {
  const timed = safeStarts.flatMap(({ words, lastMs }) =>
    lastMs === null ? [] : [`${at(lastMs)} ${words}`],
  );
  if (timed.length === 0) return safeStartsNote;
  return `${timed.join('; ')}.${safeStartsNote === null ? '' : ` ${safeStartsNote}`}`;
}

const tenIn = (share: number): string => `${Math.round(share * 10)} in 10`;
