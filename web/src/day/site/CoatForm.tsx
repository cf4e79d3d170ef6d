import { clockTime } from '../../time/site-time.ts';
import type { CoatedPart } from './parts.ts';
import { type Moments, TapOrTime } from './TapOrTime.tsx';

interface Props {
  readonly parts: readonly CoatedPart[];
  /** Which section is chosen. */
  readonly chosen: CoatedPart;
  readonly choose: (id: string) => void;
  /** Sections with a film in the log. */
  readonly done: ReadonlySet<string>;
  readonly moments: Moments;
  readonly coated: (part: CoatedPart, ms: number) => void;
}

/** 'Coated now', for the next section on the list or another. */
export function CoatForm({ parts, chosen, choose, done, moments, coated }: Props) {
  const { zone } = moments;
  const today = moments.at() !== null;
  return (
    <div class="coat-form">
      <label for="coat-part">Section just coated</label>
      <select
        id="coat-part"
        value={chosen.id}
        onChange={(event) => choose(event.currentTarget.value)}
      >
        {parts.map((part) => (
          <option key={part.id} value={part.id}>
            {part.name}, listed {clockTime(part.startMs, zone)}
            {done.has(part.id) ? ', coated' : ''}
          </option>
        ))}
      </select>
      <TapOrTime
        key={chosen.id}
        id="coated-at"
        words="Coated"
        of={chosen.name}
        moments={moments}
        suggest={today ? '' : clockTime(chosen.endMs, zone)}
        log={(ms) => coated(chosen, ms)}
      />
    </div>
  );
}
