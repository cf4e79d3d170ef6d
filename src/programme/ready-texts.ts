import { clockText, localDayOf } from '../time/index.ts';
import { dayNumber } from './dates.ts';
import { DATE_FORMS, type DatesInWords, datesInWords } from './dates-in-words.ts';
import type { Booking, Move } from './move-types.ts';
import { shortened } from './short-names.ts';
import { isShort, type TextLength, textLength, withPlainLetters } from './text-length.ts';
import { type Names, type Telling, type When, WORDINGS, type Wording } from './text-wordings.ts';

/** Who it is from and what roof it is about, as people call them. */
export interface TextAbout {
  readonly firm: string;
  readonly site: string;
  /** null = work for nobody outside the firm: no client is told. */
  readonly client: string | null;
  /** IANA zone of the site. */
  readonly zone: string;
}

/** What is to be told; `startMs` is that of the first day to come, null = not known yet. */
export type TextNews =
  /** A proposed move: asks those whose word it needs, before it is agreed. */
  | { readonly kind: 'move'; readonly move: Move; readonly startMs: number | null }
  | { readonly kind: 'confirmed'; readonly booking: Booking; readonly startMs: number | null }
  | { readonly kind: 'called off'; readonly booking: Booking }
  | {
      readonly kind: 'start tomorrow';
      readonly booking: Booking;
      /** That of tomorrow, whichever day of the booking it is. */
      readonly startMs: number;
      readonly nowMs: number;
    };

export interface ReadyText extends TextLength {
  readonly to: { readonly who: 'client' } | { readonly who: 'crew'; readonly crewId: string };
  readonly text: string;
}

/** A text before its words are chosen. */
interface Draft {
  readonly to: ReadyText['to'];
  readonly telling: Telling;
  readonly dates: readonly string[];
  readonly formerDates: readonly string[];
  readonly startMs: number | null;
}

/**
 * The texts to send, each short enough for one message (see textLength): to the client where the client has
 * something to know, and to each crew concerned. Names give way to dates and times, never the other way round.
 * @throws RangeError where a name is empty, a start is not on the day it is for, or 'tomorrow' is not tomorrow at the site
 */
export function textsFor(about: TextAbout, news: TextNews): ReadyText[] {
  const { firm, site, client } = about;
  for (const [field, name] of Object.entries({ firm, site, client }))
    if (name !== null && name.trim() === '')
      throw new RangeError(`${field} (${JSON.stringify(name)}) must not be empty`);
  return draftsOf(news, about.zone)
    .filter(({ to }) => to.who === 'crew' || about.client !== null)
    .map((draft) => ({ to: draft.to, ...written(draft, about) }));
}

function draftsOf(news: TextNews, zone: string): Draft[] {
  if (news.kind === 'move') return moveDrafts(news.move, news.startMs, zone);
  const { dates, crewId } = news.booking;
  if (news.kind === 'called off')
    return both(crewId, { telling: 'called off', dates: [], formerDates: dates, startMs: null });
  if (news.kind === 'confirmed') {
    const startMs = startOn(dates[0], news.startMs, zone);
    return both(crewId, { telling: 'confirmed', dates, formerDates: [], startMs });
  }
  const tomorrow = localDayOf(localDayOf(news.nowMs, zone).endMs, zone).date;
  if (!dates.includes(tomorrow))
    throw new RangeError(`dates (${dates.join(', ')}) must have tomorrow, ${tomorrow}, among them`);
  const startMs = startOn(tomorrow, news.startMs, zone);
  const telling = tomorrow === dates[0] ? 'starts tomorrow' : 'goes on tomorrow';
  return both(crewId, { telling, dates: [tomorrow], formerDates: [], startMs });
}

function both(crewId: string, draft: Omit<Draft, 'to'>): Draft[] {
  return [
    { to: { who: 'client' }, ...draft },
    { to: { who: 'crew', crewId }, ...draft },
  ];
}

function moveDrafts({ from, to }: Move, start: number | null, zone: string): Draft[] {
  const startMs = to === null ? null : startOn(to.dates[0], start, zone);
  const draft = { dates: to?.dates ?? [], formerDates: from?.dates ?? [], startMs };
  if (from === null && to === null) return [];
  if (to === null) return both(from!.crewId, { telling: 'called off', ...draft });
  if (from === null) return both(to.crewId, { telling: 'booked', ...draft });
  const sameDates = from.dates.join() === to.dates.join();
  const client: Draft[] = sameDates ? [] : [{ to: { who: 'client' }, telling: 'moved', ...draft }];
  if (from.crewId === to.crewId)
    return [...client, { to: { who: 'crew', crewId: to.crewId }, telling: 'moved', ...draft }];
  return [
    ...client,
    { to: { who: 'crew', crewId: from.crewId }, telling: 'not needed', ...draft },
    { to: { who: 'crew', crewId: to.crewId }, telling: 'booked', ...draft },
  ];
}

function startOn(date: string | undefined, startMs: number | null, zone: string): number | null {
  if (date === undefined) throw new RangeError('dates must have at least one day');
  if (startMs === null) return null;
  const startsOn = localDayOf(startMs, zone).date;
  if (startsOn === date) return startMs;
  throw new RangeError(`startMs (${startMs}) must be on ${date}; in ${zone} it is on ${startsOn}`);
}

/** The first that is short enough, from the fullest words to the barest. */
function written(draft: Draft, about: TextAbout): Omit<ReadyText, 'to'> {
  const names = {
    firm: plainName(about.firm),
    site: plainName(about.site),
    client: plainName(about.client ?? ''),
  };
  const { full, brief, bare } = WORDINGS[draft.telling][draft.to.who];
  const start = draft.startMs === null ? null : clockText(draft.startMs, about.zone);
  // A client is greeted before a name is whole; a crew needs to know which roof.
  const politely = draft.to.who === 'client' ? shortened(names, 2) : [];
  const said = (form: DatesInWords): When => ({
    dates: inWords(draft.dates, form),
    formerDates: inWords(draft.formerDates, form),
    start,
  });
  const when = { long: said('long'), short: said('short'), ends: said('ends') };
  const attempts: readonly [Wording, DatesInWords, Iterable<Names>][] = [
    [full, 'long', [names]],
    [full, 'short', [names]],
    [full, 'short', politely],
    [brief, 'long', [names]],
    [brief, 'short', shortened(names, 1)],
    [brief, 'ends', shortened(names, 1)],
    ...DATE_FORMS.map((form): [Wording, DatesInWords, Names[]] => [bare, form, [names]]),
  ];
  for (const [wording, form, choices] of attempts)
    for (const called of choices) {
      const text = wording(called, when[form]);
      if (isShort(text)) return { text, ...textLength(text) };
    }
  throw new RangeError(`no wording is short enough for dates (${draft.dates.join(', ')})`);
}

const inWords = (dates: readonly string[], form: DatesInWords): string =>
  dates.length === 0 ? '' : datesInWords(dates.map(dayNumber), form);

const plainName = (name: string): string => withPlainLetters(name.trim().replace(/\s+/gu, ' '));
