import { createContext } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import type { SiteLogEvent, WorkAnswer } from '../../../../src/contract/index.ts';
import { clockTime, localDate } from '../../time/site-time.ts';
import { dayPack } from './day-pack.ts';
import { coatedEntry, confirmEntry, filmEntry, undoEntry } from './entries.ts';
import { type CoatedPart, isUnlisted, partsOf, unlistedParts } from './parts.ts';
import { write } from './site-log.ts';
import { type DayClocks, type Question, type RunningFilm, useDayClocks } from './use-day-clocks.ts';
import { useSiteNow } from './use-site-now.ts';

/** The job as the day page needs it, with or without an order of work. */
export interface SiteJob {
  readonly id: string;
  readonly timeZone: string;
  readonly demo: boolean;
}

/** What may be logged: the moment it happened, or why not. */
export interface Moments {
  readonly zone: string;
  readonly date: string;
  /** The present on site where the day is today, else null: then a time is typed. */
  at(): number | null;
  /** Why an entry at that moment cannot be right; null = it can. */
  check(ms: number): string | null;
}

export interface RoofDesk {
  readonly job: SiteJob;
  readonly date: string;
  readonly parts: readonly CoatedPart[];
  /** What the list does not hold. */
  readonly unlisted: readonly CoatedPart[];
  readonly clocks: DayClocks;
  /** The present on site; null = another day is looked at, or the server has not said. */
  readonly nowMs: number | null;
  /** Whether the server has said what time it is on site. */
  readonly ready: boolean;
  /** Whether anything may be logged for this day. */
  readonly open: boolean;
  readonly moments: Moments;
  /** The section that the form stands on. */
  readonly chosen: CoatedPart | null;
  choose(id: string): void;
  coated(part: CoatedPart, ms: number): void;
  touchDry(film: RunningFilm, ms: number): void;
  closed(film: RunningFilm, ms: number): void;
  confirm(question: Question): void;
  takeBack(entryId: string): void;
  /** What was just logged. */
  readonly said: string;
}

/** Null where no day is open, as in a drawing of the list alone. */
export const RoofDeskContext = createContext<RoofDesk | null>(null);

/** Clocks of phone and server may differ by so much. */
const SLACK_MS = 60_000;

export const filmName = ({ part, film }: RunningFilm): string =>
  part?.name ??
  (isUnlisted(film.activityId)
    ? 'Section not on the list'
    : `A section no longer on the list (${film.activityId})`);

/** Everything that is known of, and may be logged for, the films of one day. */
export function useRoofDesk(job: SiteJob, date: string, answer: WorkAnswer | null): RoofDesk {
  const { id: jobId, timeZone: zone, demo } = job;
  const parts = useMemo(() => partsOf(jobId, date, answer), [jobId, date, answer]);
  const clocks = useDayClocks({ jobId, date, zone, demo, parts });
  const site = useSiteNow(demo);
  const [wanted, choose] = useState<string | null>(null);
  const [said, say] = useState('');

  const today = site.nowMs !== null && localDate(site.nowMs, zone) === date;
  const done = new Set(clocks.films.map(({ film }) => film.activityId));
  const unlisted = unlistedParts(dayPack(jobId, date).value.pack, clocks.films.length);
  const next = parts.find(({ id }) => !done.has(id)) ?? unlisted[0] ?? null;
  const put = (event: SiteLogEvent, words: string) => {
    say(words);
    void write(jobId, event);
  };
  const loggedMs = (): number => site.at() ?? 0;
  const onFilm =
    (kind: 'touch-dry' | 'closed', words: string) => (running: RunningFilm, ms: number) =>
      put(
        filmEntry(jobId, kind, running.film.activityId, ms, loggedMs()),
        `Logged: ${words} at ${clockTime(ms, zone)}, ${filmName(running)}.`,
      );
  return {
    job,
    date,
    parts,
    clocks,
    nowMs: today ? site.nowMs : null,
    ready: site.nowMs !== null,
    open: site.nowMs !== null && (today || demo),
    moments: {
      zone,
      date,
      at: () => (today ? site.at() : null),
      check(ms) {
        const now = site.at();
        if (demo || now === null || ms <= now + SLACK_MS) return null;
        return `${clockTime(ms, zone)} is still to come: it is ${clockTime(now, zone)} on site. Log it when it has happened.`;
      },
    },
    unlisted,
    chosen: [...parts, ...unlisted].find(({ id }) => id === wanted) ?? next,
    choose,
    coated(part, ms) {
      choose(null);
      put(
        coatedEntry(jobId, part, ms, loggedMs()),
        `Logged: coated at ${clockTime(ms, zone)}, ${part.name}.`,
      );
    },
    touchDry: onFilm('touch-dry', 'touch dry'),
    closed: onFilm('closed', 'closed'),
    confirm: ({ entryId }) =>
      put(confirmEntry(jobId, entryId, loggedMs()), 'Confirmed: it counts in full.'),
    takeBack: (entryId) =>
      put(undoEntry(jobId, entryId, loggedMs()), 'Taken back; the clock is as it was before.'),
    said,
  };
}
