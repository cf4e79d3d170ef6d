import { useEffect, useMemo } from 'preact/hooks';
import type { LearnedAnswer, SiteLogEvent } from '../../../../src/contract/index.ts';
import {
  askFilm,
  type PackAnswer,
  type SiteFilm,
  siteClocks,
  standingLog,
} from '../../../../src/products/index.ts';
import { fetchHeld, held } from '../../api/held.ts';
import { learnedPath } from '../../api/paths.ts';
import { localDate } from '../../time/site-time.ts';
import { dayPack, fetchDayPack } from './day-pack.ts';
import type { CoatedPart } from './parts.ts';
import { fetchLog, sendAll, siteLog } from './site-log.ts';

/** A film of the day with its clock. */
export interface RunningFilm {
  readonly film: SiteFilm;
  /** Null = the list no longer holds it. */
  readonly part: CoatedPart | null;
  readonly times: PackAnswer;
  readonly question: Question | null;
}

/** An entry that looks wrong, to be asked about. */
export interface Question {
  /** The 'touch dry' entry. */
  readonly entryId: string;
  readonly words: readonly string[];
  readonly canBeConfirmed: boolean;
}

export interface DayClocks {
  readonly films: readonly RunningFilm[];
  /** The last entry of this day that stands, to be taken back. */
  readonly last: SiteLogEvent | null;
  /** The pack still counts an entry that was taken back, and cannot be fetched anew. */
  readonly stale: boolean;
}

export interface DayClocksOf {
  readonly jobId: string;
  readonly date: string;
  readonly zone: string;
  readonly demo: boolean;
  readonly parts: readonly CoatedPart[];
}

const SEND_AGAIN_MS = 20_000;
const TEACHES: ReadonlySet<string> = new Set(['touch-dry', 'confirm']);
const ON_CLOCKS: ReadonlySet<string> = new Set(['coated', 'touch-dry', 'closed', 'confirm']);

/** The running clocks of a day: from the log and the pack alone, so that they need no line. */
export function useDayClocks({ jobId, date, zone, demo, parts }: DayClocksOf): DayClocks {
  const log = siteLog(jobId).value;
  const { pack, taughtBy } = dayPack(jobId, date).value;
  const standing = useMemo(() => standingLog(log.events), [log.events]);
  const teaching = standing.filter(({ kind }) => TEACHES.has(kind)).map(({ id }) => id);
  const sent = log.unsent.length === 0;
  const stale = taughtBy.some((id) => !teaching.includes(id));

  useEffect(() => {
    const open = async () => {
      await fetchLog(jobId);
      const now = standingLog(siteLog(jobId).value.events);
      const taught = now.filter(({ kind }) => TEACHES.has(kind)).map(({ id }) => id);
      await fetchDayPack(jobId, date, taught);
    };
    void open();
    const again = () => void sendAll(jobId);
    window.addEventListener('online', again);
    const timer = setInterval(again, SEND_AGAIN_MS);
    return () => {
      window.removeEventListener('online', again);
      clearInterval(timer);
    };
  }, [jobId, date]);

  // What a taken-back entry taught is in the pack until it is made anew.
  useEffect(() => {
    if (stale && sent) void fetchDayPack(jobId, date, teaching);
  }, [stale, sent, jobId, date]);

  const films = useMemo(() => {
    if (pack === null) return [];
    const partOf = new Map(parts.map((part) => [part.id, part]));
    const clocks = siteClocks(pack, log.events, (id) => partOf.get(id) ?? null);
    return clocks.films
      .filter((film) => localDate(film.lastCoatedMs, zone) === date)
      .map((film) => ({
        film,
        part: partOf.get(film.activityId) ?? null,
        times: askFilm(pack, film, clocks.shifts),
      }));
  }, [pack, log.events, parts, zone, date]);

  const felt = films.flatMap(({ film }) => (film.dry === null ? [] : [film.productId]));
  const paths = [...new Set(felt)].sort().map((id) => learnedPath(id, demo ? 'demo' : 'own'));
  const asking = `${paths.join()}|${teaching.join()}`;
  useEffect(() => {
    if (sent) for (const path of paths) void fetchHeld(path);
  }, [asking, sent]);
  const asked = paths.flatMap((path) => held<LearnedAnswer>(path).value.data?.asked ?? []);

  return {
    films: films.map((running) => ({ ...running, question: questionOn(running, asked) })),
    last: lastOf(standing, films, zone, date),
    stale,
  };
}

/** The server's question where it has one; else what the pack itself finds odd. */
function questionOn(
  { film, times }: Pick<RunningFilm, 'film' | 'times'>,
  asked: LearnedAnswer['asked'],
): Question | null {
  if (film.dry === null || film.dry.confirmed) return null;
  const { id: entryId } = film.dry;
  const found = asked.find(({ eventId }) => eventId === entryId);
  if (found !== undefined) {
    return { entryId, words: [found.question], canBeConfirmed: found.canBeConfirmed };
  }
  const words = times.ok ? times.questions.filter((words) => words.includes('touch dry')) : [];
  return words.length === 0 ? null : { entryId, words, canBeConfirmed: true };
}

function lastOf(
  standing: readonly SiteLogEvent[],
  films: readonly Pick<RunningFilm, 'film'>[],
  zone: string,
  date: string,
): SiteLogEvent | null {
  const activities = new Set(films.map(({ film }) => film.activityId));
  const dries = new Set(films.flatMap(({ film }) => film.dry?.id ?? []));
  const mine = standing.filter(
    (event) =>
      ON_CLOCKS.has(event.kind) &&
      (event.kind === 'confirm'
        ? dries.has(event.confirms)
        : 'activityId' in event &&
          activities.has(event.activityId) &&
          localDate(event.atMs, zone) === date),
  );
  return mine.reduce<SiteLogEvent | null>(
    (last, event) => (last === null || event.loggedMs >= last.loggedMs ? event : last),
    null,
  );
}
