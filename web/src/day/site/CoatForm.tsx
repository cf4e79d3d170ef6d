import { clockTime } from '../../time/site-time.ts';
import type { CoatedPart } from './parts.ts';
import { TapOrTime } from './TapOrTime.tsx';
import type { RoofDesk } from './use-roof-desk.ts';

/** 'Coated now', for the next section on the list or another. */
export function CoatForm({ desk, chosen }: { desk: RoofDesk; chosen: CoatedPart }) {
  const { parts, moments, clocks, nowMs } = desk;
  const done = new Set(clocks.films.map(({ film }) => film.activityId));
  return (
    <div class="coat-form">
      <label for="coat-part">Section just coated</label>
      <select
        id="coat-part"
        value={chosen.id}
        onChange={(event) => desk.choose(event.currentTarget.value)}
      >
        {parts.map((part) => (
          <option key={part.id} value={part.id}>
            {clockTime(part.startMs, moments.zone)} {part.name}
            {done.has(part.id) ? ', coated' : ''}
          </option>
        ))}
        {desk.unlisted.map((part) => (
          <option key={part.id} value={part.id}>
            {part.name}
          </option>
        ))}
      </select>
      <TapOrTime
        key={chosen.id}
        id="coated-at"
        words="Coated"
        of={chosen.name}
        moments={moments}
        suggest={nowMs === null && chosen.endMs > 0 ? clockTime(chosen.endMs, moments.zone) : ''}
        log={(ms) => desk.coated(chosen, ms)}
      />
    </div>
  );
}
