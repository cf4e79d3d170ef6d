import { useContext } from 'preact/hooks';
import { clockTime } from '../../time/site-time.ts';
import { RoofDeskContext } from './use-roof-desk.ts';

/** At a coating on the list: the tap that starts its clock, or that it runs. */
export function CoatTap({ partId }: { partId: string }) {
  const desk = useContext(RoofDeskContext);
  const part = desk?.parts.find(({ id }) => id === partId);
  if (desk === null || part === undefined) return null;
  const film = desk.clocks.films.findLast((running) => running.film.activityId === partId)?.film;
  if (film !== undefined) {
    const at = clockTime(film.lastCoatedMs, desk.moments.zone);
    return (
      <p class="coat-tap">
        Coated {at}. <a href="#roof-now-title">Its clock</a>
      </p>
    );
  }
  if (!desk.open) return null;
  if (desk.nowMs !== null) {
    return (
      <p class="coat-tap">
        <button
          type="button"
          class="second"
          aria-label={`Coated now: ${part.name}`}
          onClick={() => {
            const ms = desk.moments.at();
            if (ms !== null) desk.coated(part, Math.round(ms));
          }}
        >
          Coated now
        </button>
      </p>
    );
  }
  return (
    <p class="coat-tap">
      <button
        type="button"
        class="second"
        aria-label={`Coated at …: ${part.name}`}
        onClick={() => {
          desk.choose(part.id);
          document.getElementById('coat-part')?.focus();
        }}
      >
        Coated at …
      </button>
    </p>
  );
}
