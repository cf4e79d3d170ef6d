import type { ComponentChildren } from 'preact';
import type { ClockPack, PackTimes } from '../../../../src/products/index.ts';
import { SiteTime } from '../../parts/SiteTime.tsx';
import { timeFrom } from '../../time/site-time.ts';
import { FilmMore } from './FilmMore.tsx';
import { facesWords, sayingOf, warningWords } from './film-words.ts';
import { type Moments, TapOrTime } from './TapOrTime.tsx';
import type { Question, RunningFilm } from './use-day-clocks.ts';

export interface FilmActions {
  touchDry(film: RunningFilm, ms: number): void;
  closed(film: RunningFilm, ms: number): void;
  confirm(question: Question): void;
  takeBack(entryId: string): void;
}

interface Props {
  readonly running: RunningFilm;
  readonly pack: ClockPack;
  readonly nowMs: number | null;
  readonly moments: Moments;
  readonly actions: FilmActions;
}

interface FiguresProps {
  readonly times: PackTimes;
  readonly time: (ms: number) => ComponentChildren;
}

/** The two times to read at arm's length. */
function Figures({ times, time }: FiguresProps) {
  const { touchDry, usableUntil, countUntilMs, ready } = times;
  const or = (ms: number | null) => (ms === null ? 'beyond the forecast' : time(ms));
  return (
    <dl class="film-times">
      {touchDry !== null && ready !== 'withheld' && (
        <div>
          <dt>{ready === 'by finger test' ? 'Found touch dry' : 'Touch dry'}</dt>
          <dd>
            <strong>{touchDry.midMs === null ? '–' : time(touchDry.midMs)}</strong>
            {ready !== 'by finger test' && (
              <span class="around">
                {or(touchDry.earlyMs)} to {or(touchDry.lateMs)}
              </span>
            )}
          </dd>
        </div>
      )}
      {usableUntil !== null && (
        <div>
          <dt>Usable until</dt>
          <dd>
            <strong>{countUntilMs === null ? '–' : time(countUntilMs)}</strong>
            <span class="around">
              {or(usableUntil.earlyMs)} to {or(usableUntil.lateMs)}
            </span>
          </dd>
        </div>
      )}
    </dl>
  );
}

function Asked({ question, actions }: { question: Question; actions: FilmActions }) {
  return (
    <div class="asked" role="alert">
      {question.words.map((words) => (
        <p key={words}>
          <strong>{words}</strong>
        </p>
      ))}
      <p class="asked-taps">
        {question.canBeConfirmed && (
          <button type="button" onClick={() => actions.confirm(question)}>
            Yes, that is right
          </button>
        )}
        <button type="button" class="second" onClick={() => actions.takeBack(question.entryId)}>
          No, take it back
        </button>
      </p>
    </div>
  );
}

export const filmName = ({ part, film }: RunningFilm): string =>
  part?.name ?? `A section no longer on the list (${film.activityId})`;

/** One coated section with its running clock. */
export function FilmClock({ running, pack, nowMs, moments, actions }: Props) {
  const { film, times, question } = running;
  const { zone, date } = moments;
  const text = (ms: number) => timeFrom(ms, zone, date);
  const time = (ms: number) => <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  const product = pack.products.find(({ id }) => id === film.productId);
  const name = filmName(running);
  const saying = times.ok && product ? sayingOf(times, product, nowMs, text) : null;
  const after = (words: string) => (ms: number) =>
    ms > film.lastCoatedMs
      ? moments.check(ms)
      : `${words} at ${text(ms)} is not after it was coated (${text(film.lastCoatedMs)}).`;
  const feels = film.dry === null && times.ok && times.touchDry !== null;
  const dryTap = (
    <TapOrTime
      id={`dry-${film.id}`}
      words="Touch dry"
      of={name}
      moments={{ ...moments, check: after('Touch dry') }}
      log={(ms) => actions.touchDry(running, ms)}
    />
  );
  const closeTap = product?.closing !== 'none' && (
    <TapOrTime
      id={`closed-${film.id}`}
      words="Closed"
      of={name}
      moments={{ ...moments, check: after('Closed') }}
      log={(ms) => actions.closed(running, ms)}
    />
  );
  return (
    <li class={`film film-${saying?.kind ?? 'unknown'}`}>
      <h3>{name}</h3>
      <p class="film-line">
        Coated {film.coatedMs < film.lastCoatedMs && <>{time(film.coatedMs)} to </>}
        {time(film.lastCoatedMs)} · {facesWords(film.surfaces)}
      </p>
      {saying !== null && (
        <>
          <p class="film-head">{saying.head}</p>
          <p class="film-sentence">{saying.sentence}</p>
        </>
      )}
      {!times.ok && <p class="film-sentence">{times.why}</p>}
      {times.ok && <Figures times={times} time={time} />}
      {times.ok && product !== undefined && times.outside.length > 0 && (
        <div class="outside">
          <strong>Outside the data sheet</strong>
          <ul>
            {times.outside.map((warning) => (
              <li key={warning.flag}>{warningWords(warning, product, text)}</li>
            ))}
          </ul>
        </div>
      )}
      {times.ok &&
        product !== undefined &&
        times.rain.map((warning) => (
          <p key={warning.flag} class="film-rain">
            {warningWords(warning, product, text)}: film that lies open then is scraped off and
            coated again.
          </p>
        ))}
      {question !== null && <Asked question={question} actions={actions} />}
      {film.endedMs === null && (feels ? dryTap : closeTap)}
      {film.endedMs !== null && <p class="film-line">Ended {time(film.endedMs)}.</p>}
      <FilmMore running={running} time={time} jobId={pack.jobId}>
        {film.endedMs === null && feels && closeTap}
      </FilmMore>
    </li>
  );
}
