import type { ComponentChildren } from 'preact';
import type { PackTimes } from '../../../../src/products/index.ts';
import { faceWords } from './film-words.ts';
import type { RunningFilm } from './use-day-clocks.ts';

interface Props {
  readonly running: RunningFilm;
  readonly time: (ms: number) => ComponentChildren;
  readonly jobId: string;
  /** Taps that are seldom wanted. */
  readonly children?: ComponentChildren;
}

type Range = NonNullable<PackTimes['touchDry']>;

/** Each face, the later times, and what could not be used: one tap below. */
export function FilmMore({ running, time, jobId, children }: Props) {
  const { film, part, times } = running;
  if (!times.ok) return null;
  const or = (ms: number | null) => (ms === null ? 'beyond the forecast' : time(ms));
  const span = (range: Range) =>
    range.earlyMs === null ? (
      'beyond the forecast'
    ) : (
      <>
        {or(range.midMs)} ({or(range.earlyMs)} to {or(range.lateMs)})
      </>
    );
  const later = [
    ['Rain does no harm after', times.rainAfter],
    ['Foot traffic', times.footTraffic],
    ['Full cure', times.fullCure],
  ] as const;
  const query = new URLSearchParams({
    product: film.productId,
    job: jobId,
    at: String(film.coatedMs),
  });
  const withheld = times.ready === 'withheld';
  return (
    <details>
      <summary>Each face, later times, whose limits</summary>
      {children}
      {!film.listed && (
        <p>
          This section is not on the list: its faces are taken as usual for the product, and it
          counts as coated in one moment.
        </p>
      )}
      <ul>
        {times.faces.map(({ surface, touchDry, usableUntil }) => (
          <li key={surface}>
            {faceWords(surface)}:
            {touchDry !== null && !withheld && <> touch dry {span(touchDry)};</>}
            {usableUntil !== null && <> usable until {span(usableUntil)}</>}
          </li>
        ))}
        {later.map(([words, range]) =>
          range === null || withheld ? null : (
            <li key={words}>
              {words}: {span(range)}
            </li>
          ),
        )}
      </ul>
      {times.notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      <p>
        {part?.productName ?? film.productId}.{' '}
        <a class="to-clock" href={`/clock?${query}`}>
          Its clock in full
        </a>
      </p>
    </details>
  );
}
