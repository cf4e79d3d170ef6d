import type { ComponentChildren } from 'preact';
import type { ClockPack, PackTimes } from '../../../../src/products/index.ts';
import { SiteTime } from '../../parts/SiteTime.tsx';
import { timeFrom } from '../../time/site-time.ts';
import { FilmMore } from './FilmMore.tsx';
import { facesWords, sayingOf, warningWords } from './film-words.ts';
import { TapOrTime } from './TapOrTime.tsx';
import type { Question, RunningFilm } from './use-day-clocks.ts';
import { filmName, type RoofDesk } from './use-roof-desk.ts';

interface Props {
  readonly running: RunningFilm;
  readonly pack: ClockPack;
  readonly desk: RoofDesk;
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

function Asked({ question, desk }: { question: Question; desk: RoofDesk }) {
  return (
    <div class="asked" role="alert">
      {question.words.map((words) => (
        <p key={words}>
          <strong>{words}</strong>
        </p>
      ))}
      <p class="asked-taps">
        {question.canBeConfirmed && (
          <button type="button" onClick={() => desk.confirm(question)}>
            Yes, that is right
          </button>
        )}
        <button type="button" class="second" onClick={() => desk.takeBack(question.entryId)}>
          No, take it back
        </button>
      </p>
    </div>
  );
}

/** One coated section with its running clock. */
export function FilmClock({ running, pack, desk }: Props) {
  const { nowMs, moments } = desk;
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
      log={(ms) => desk.touchDry(running, ms)}
    />
  );
  const closeTap = product?.closing !== 'none' && (
    <TapOrTime
      id={`closed-${film.id}`}
      words="Closed"
      of={name}
      moments={{ ...moments, check: after('Closed') }}
      log={(ms) => desk.closed(running, ms)}
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
      {question !== null && <Asked question={question} desk={desk} />}
      {film.endedMs === null && (feels ? dryTap : closeTap)}
      {film.endedMs !== null && <p class="film-line">Ended {time(film.endedMs)}.</p>}
      <FilmMore running={running} time={time} jobId={pack.jobId}>
        {film.endedMs === null && feels && closeTap}
      </FilmMore>
    </li>
  );
}
