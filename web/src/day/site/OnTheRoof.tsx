import { useMemo, useState } from 'preact/hooks';
import type { SiteLogEvent, WorkAnswer } from '../../../../src/contract/index.ts';
import { Trouble } from '../../parts/Trouble.tsx';
import { clockTime, dateLong, localDate } from '../../time/site-time.ts';
import { CoatForm } from './CoatForm.tsx';
import { dayPack, fetchDayPack } from './day-pack.ts';
import { coatedEntry, confirmEntry, filmEntry, undoEntry } from './entries.ts';
import { type FilmActions, FilmClock, filmName } from './FilmClock.tsx';
import { partsOf } from './parts.ts';
import { siteLog, write } from './site-log.ts';
import type { Moments } from './TapOrTime.tsx';
import { type RunningFilm, useDayClocks } from './use-day-clocks.ts';
import { useSiteNow } from './use-site-now.ts';

interface Props {
  readonly job: { readonly id: string; readonly timeZone: string; readonly demo: boolean };
  readonly date: string;
  /** Null = no order of work now: what was logged still runs. */
  readonly answer: WorkAnswer | null;
}

/** A film so long past its time is told in the fold: it was closed and nobody said so. */
const LONG_PAST_MS = 45 * 60_000;
/** Clocks of phone and server may differ by so much. */
const SLACK_MS = 60_000;

const WORDS: Readonly<Record<string, string>> = {
  coated: 'coated',
  'touch-dry': 'touch dry',
  closed: 'closed',
  confirm: 'the confirmation',
};

function isOver({ film, times }: RunningFilm, nowMs: number | null): boolean {
  if (film.endedMs !== null) return true;
  const untilMs = times.ok ? (times.countUntilMs ?? times.rainAfter?.lateMs ?? null) : null;
  return nowMs !== null && untilMs !== null && nowMs > untilMs + LONG_PAST_MS;
}

/** The one that goes off first stands first. */
const soonest = (a: RunningFilm, b: RunningFilm): number => endOf(a) - endOf(b);
const endOf = ({ film, times }: RunningFilm): number =>
  (times.ok ? times.countUntilMs : null) ?? film.lastCoatedMs;

/** What lies coated on the roof now, each with its clock, and the tap that starts another. */
export function OnTheRoof({ job, date, answer }: Props) {
  const { id: jobId, timeZone: zone, demo } = job;
  const parts = useMemo(() => partsOf(jobId, date, answer), [jobId, date, answer]);
  const clocks = useDayClocks({ jobId, date, zone, demo, parts });
  const log = siteLog(jobId).value;
  const { pack, problem } = dayPack(jobId, date).value;
  const site = useSiteNow(demo);
  const [wanted, choose] = useState<string | null>(null);
  const [said, say] = useState('');

  const today = site.nowMs !== null && localDate(site.nowMs, zone) === date;
  const nowMs = today ? site.nowMs : null;
  const moments: Moments = {
    zone,
    date,
    at: () => (today ? site.at() : null),
    check: (ms) => {
      const now = site.at();
      if (demo || now === null || ms <= now + SLACK_MS) return null;
      return `${clockTime(ms, zone)} is still to come: it is ${clockTime(now, zone)} on site. Log it when it has happened.`;
    },
  };

  const running = clocks.films.filter((film) => !isOver(film, nowMs)).sort(soonest);
  const over = clocks.films.filter((film) => isOver(film, nowMs));
  const done = new Set(clocks.films.map(({ film }) => film.activityId));
  const next = parts.find(({ id }) => !done.has(id)) ?? parts[0];
  const chosen = parts.find(({ id }) => id === wanted) ?? next;

  const put = (event: SiteLogEvent, words: string) => {
    say(words);
    void write(jobId, event);
  };
  const loggedMs = (): number => site.at() ?? 0;
  const takeBack = (entryId: string) =>
    put(undoEntry(jobId, entryId, loggedMs()), 'Taken back; the clock is as it was before.');
  const actions: FilmActions = {
    touchDry: (film, ms) =>
      put(
        filmEntry(jobId, 'touch-dry', film.film.activityId, ms, loggedMs()),
        `Logged: touch dry at ${clockTime(ms, zone)}, ${filmName(film)}.`,
      ),
    closed: (film, ms) =>
      put(
        filmEntry(jobId, 'closed', film.film.activityId, ms, loggedMs()),
        `Logged: closed at ${clockTime(ms, zone)}, ${filmName(film)}.`,
      ),
    confirm: ({ entryId }) =>
      put(confirmEntry(jobId, entryId, loggedMs()), 'Confirmed: it counts in full.'),
    takeBack,
  };
  const card = (film: RunningFilm) =>
    pack && (
      <FilmClock
        key={film.film.id}
        running={film}
        pack={pack}
        nowMs={nowMs}
        moments={moments}
        actions={actions}
      />
    );
  const lastName = (event: SiteLogEvent): string => {
    const words = `${WORDS[event.kind] ?? event.kind} ${clockTime(event.atMs, zone)}`;
    const film = clocks.films.find(
      ({ film }) => 'activityId' in event && film.activityId === event.activityId,
    );
    return film === undefined ? words : `${words}, ${filmName(film)}`;
  };

  return (
    <section class="on-the-roof" aria-labelledby="roof-now-title">
      <h2 id="roof-now-title">Coated on the roof</h2>
      {problem !== null && pack === null && (
        <Trouble problem={problem} again={() => void fetchDayPack(jobId, date, [])} />
      )}
      {log.problem !== null && <Trouble problem={log.problem} />}
      {running.length > 0 && <ul class="films">{running.map(card)}</ul>}
      {running.length === 0 && log.loaded && <p>No film lies open by the log.</p>}
      {chosen !== undefined && (today || demo) && (
        <>
          {!today && (
            <p class="hint">
              The demo’s clock has not reached {dateLong(date)}: type times here to try the clocks.
            </p>
          )}
          <CoatForm
            parts={parts}
            chosen={chosen}
            choose={choose}
            done={done}
            moments={moments}
            coated={(part, ms) => {
              choose(null);
              put(
                coatedEntry(jobId, part, ms, loggedMs()),
                `Logged: coated at ${clockTime(ms, zone)}, ${part.name}.`,
              );
            }}
          />
        </>
      )}
      {!today && !demo && <p class="hint">Coatings are logged here on the day itself.</p>}
      {clocks.last !== null && (
        <p class="undo">
          <button type="button" class="second" onClick={() => takeBack(clocks.last?.id ?? '')}>
            Undo: {lastName(clocks.last)}
          </button>
        </p>
      )}
      {log.unsent.length > 0 && (
        <p class="unsent">
          {log.unsent.length === 1 ? '1 entry is' : `${log.unsent.length} entries are`} kept on this
          phone and sent when there is a line. The clocks run on.
        </p>
      )}
      {clocks.stale && log.unsent.length > 0 && (
        <p class="unsent">
          These clocks still count an entry that was taken back, until there is a line.
        </p>
      )}
      <p class="logged" role="status">
        {said}
      </p>
      {running.length > 0 && (
        <p class="hint">The finger test decides. The clock never overrules it.</p>
      )}
      {over.length > 0 && (
        <details>
          <summary>Closed, coated again or long past its time: {over.length}</summary>
          <ul class="films">{over.map(card)}</ul>
        </details>
      )}
    </section>
  );
}
