import type { LearnedAnswer } from '../../../src/contract/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { learnedPath } from '../api/paths.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { figure, minutesWords } from '../words/figures.ts';

const factors = new Intl.NumberFormat('en-GB', {
  maximumFractionDigits: 2,
  minimumFractionDigits: 2,
});

/** What the firm's own site logs say of how this product dries. */
export function Learned({ productId }: { productId: string }) {
  const own = useHeld<LearnedAnswer>(learnedPath(productId, 'own'));
  const demo = useHeld<LearnedAnswer>(learnedPath(productId, 'demo'));
  const hasDemo =
    demo.data !== null &&
    demo.data.used.length + demo.data.setAside.length + demo.data.asked.length > 0;
  return (
    <section class="numbers" aria-labelledby="learned-title">
      <h2 id="learned-title">What your own logs say</h2>
      {own.problem && (
        <Trouble
          problem={own.problem}
          again={() => void fetchHeld(learnedPath(productId, 'own'))}
        />
      )}
      {own.data && <Answer answer={own.data} />}
      {hasDemo && demo.data && (
        <>
          <h3>In the demo firm’s logs</h3>
          <Answer answer={demo.data} />
        </>
      )}
    </section>
  );
}

function Answer({ answer }: { answer: LearnedAnswer }) {
  const { speed, sheet, sees, sentence, used, setAside, asked, notes } = answer;
  return (
    <>
      <p>{sentence}</p>
      {speed && speed.films > 0 && (
        <dl class="sides">
          <div>
            <dt>Dries at</dt>
            <dd>
              <strong>{factors.format(speed.factor)}</strong> times the sheet’s speed, 8 in 10
              between {factors.format(speed.lowFactor)} and {factors.format(speed.highFactor)}
            </dd>
          </div>
          <div>
            <dt>From</dt>
            <dd>
              {speed.films} {speed.films === 1 ? 'film' : 'films'} on {speed.days}{' '}
              {speed.days === 1 ? 'day' : 'days'}, counting as {figure(speed.effectiveFilms)} by age
            </dd>
          </div>
          {sheet && sees && (
            <div>
              <dt>Touch dry, typically</dt>
              <dd>
                {minutesWords(sees.typicalMin)}; the sheet’s is {minutesWords(sheet.typicalMin)}
              </dd>
            </div>
          )}
        </dl>
      )}
      <Films
        title="Films used"
        films={used.map(({ tookMin, expectedMin, speed: pace, confirmed, ...film }) => ({
          ...film,
          words: `took ${minutesWords(tookMin)}, by the sheet ${minutesWords(expectedMin)} in that weather (${factors.format(pace)} times its speed)${confirmed ? '; confirmed' : ''}`,
        }))}
        open
      />
      <Films
        title="Asked about"
        films={asked.map((film) => ({ ...film, words: film.question }))}
        open
      />
      <Films title="Set aside" films={setAside.map((film) => ({ ...film, words: film.why }))} />
      <details>
        <summary>How it is reckoned</summary>
        <ul>
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

interface FilmLine {
  readonly eventId: string;
  readonly jobId: string;
  readonly jobName: string;
  readonly date: string;
  readonly words: string;
}

function Films(props: { title: string; films: readonly FilmLine[]; open?: boolean }) {
  const { title, films, open = false } = props;
  if (films.length === 0) return null;
  return (
    <details open={open}>
      <summary>
        {title}: {films.length}
      </summary>
      <ul>
        {films.map(({ eventId, jobId, jobName, date, words }) => (
          <li key={eventId}>
            {date}, <a href={`/job/${encodeURIComponent(jobId)}`}>{jobName}</a>: {words}
          </li>
        ))}
      </ul>
    </details>
  );
}
