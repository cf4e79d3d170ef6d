import type { SiteLogEvent } from '../../../../src/contract/index.ts';
import { Trouble } from '../../parts/Trouble.tsx';
import { clockTime, dateLong } from '../../time/site-time.ts';
import { stageWords } from '../../words/labels.ts';
import { itemsOf } from '../chapters.ts';
import type { WorkLine } from '../group-work.ts';
import { CoatForm } from './CoatForm.tsx';
import { dayPack, fetchDayPack } from './day-pack.ts';
import { FilmClock } from './FilmClock.tsx';
import { siteLog } from './site-log.ts';
import type { RunningFilm } from './use-day-clocks.ts';
import { filmName, type RoofDesk } from './use-roof-desk.ts';

interface Props {
  readonly desk: RoofDesk;
  /** What the list says is at hand; null = nothing, or another day. */
  readonly atHand: WorkLine | null;
}

/** A film so long past its time is told in the fold: it was closed and nobody said so. */
const LONG_PAST_MS = 45 * 60_000;

const WORDS: Readonly<Record<string, string>> = {
  coated: 'coated',
  'touch-dry': 'touch dry',
  closed: 'closed',
  confirm: 'the confirmation at',
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
export function OnTheRoof({ desk, atHand }: Props) {
  const { job, date, clocks, nowMs, moments } = desk;
  const log = siteLog(job.id).value;
  const { pack, problem } = dayPack(job.id, date).value;
  const running = clocks.films.filter((film) => !isOver(film, nowMs)).sort(soonest);
  const over = clocks.films.filter((film) => isOver(film, nowMs));
  const { last } = clocks;
  const card = (film: RunningFilm) =>
    pack && <FilmClock key={film.film.id} running={film} pack={pack} desk={desk} />;
  return (
    <section class="on-the-roof" aria-labelledby="roof-now-title">
      <h2 id="roof-now-title">Coated on the roof</h2>
      {atHand !== null && <AtHand line={atHand} zone={moments.zone} />}
      {problem !== null && pack === null && (
        <Trouble problem={problem} again={() => void fetchDayPack(job.id, date, [])} />
      )}
      {log.problem !== null && <Trouble problem={log.problem} />}
      {running.length > 0 && <ul class="films">{running.map(card)}</ul>}
      {desk.open && desk.chosen !== null && (
        <>
          {nowMs === null && (
            <p class="hint">
              The demo’s clock has not reached {dateLong(date)}: type times here to try the clocks.
            </p>
          )}
          <CoatForm desk={desk} chosen={desk.chosen} />
        </>
      )}
      {!desk.open && <p class="hint">Coatings are logged here on the day itself.</p>}
      {last !== null && (
        <p class="undo">
          <button type="button" class="second" onClick={() => desk.takeBack(last.id)}>
            Undo: {entryWords(last, clocks.films, moments.zone)}
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
          These clocks still count what an entry taken back had taught, until there is a line.
        </p>
      )}
      <p class="logged" role="status">
        {desk.said}
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

function AtHand({ line, zone }: { line: WorkLine; zone: string }) {
  const [first] = itemsOf(line);
  if (first === undefined) return null;
  const title = line.kind === 'one' ? first.title : stageWords(first.stage);
  return (
    <p class="at-hand">
      At hand by the list, {clockTime(first.startMs, zone)}:{' '}
      <a href={`#work-${line.number}`}>
        {line.number} {title}
      </a>
    </p>
  );
}

function entryWords(event: SiteLogEvent, films: readonly RunningFilm[], zone: string): string {
  const words = `${WORDS[event.kind] ?? event.kind} ${clockTime(event.atMs, zone)}`;
  const found = films.find(
    ({ film }) => 'activityId' in event && film.activityId === event.activityId,
  );
  return found === undefined ? words : `${words}, ${filmName(found)}`;
}
