import { MS_PER_MINUTE } from '../units/index.ts';
import type { SurfaceWeather } from './types.ts';

/** Below this a surface shows no water to a pressed tissue [mm] (common practice). */
export const FILM_VISIBLE_MM = 0.01;
/**
 * Soaked water above which a panel counts as damp [mm]: what takes the outer 5 mm of a 650 kg/m3
 * board from an everyday 12 % to the 18 % that is not laid on (common practice; depth from memory).
 */
export const SOAKED_DAMP_MM = 0.2;
/** A deck counts as fit only where it then stays dry this long: one gust of sun does not dry a panel. */
const STAYS_DRY_MS = 30 * MS_PER_MINUTE;

export type DeckState = 'dry' | 'damp' | 'wet' | 'unknown';

/**
 * Wet: water, dew or frost lies on the face, or is settling. Damp: none shows, but the panel has soaked
 * up more than is laid on. Unknown: past what the forecast knows, while covered, or where the panel's
 * moisture at opening is not known; never taken for dry.
 * @param m  member, 0..memberCount - 1
 * @param step  of the grid; outside it: unknown
 */
export function deckState(surface: SurfaceWeather, m: number, step: number): DeckState {
  const { steps } = surface.time;
  if (step < 0 || step >= steps) return 'unknown';
  const at = m * steps + step;
  const filmMm = surface.filmMm[at]!;
  if (filmMm > FILM_VISIBLE_MM) return 'wet';
  if (surface.dewMarginK[at]! <= 0 && !Number.isNaN(filmMm)) return 'wet';
  const soakedMm = surface.soakedMm[at]!;
  if (soakedMm > SOAKED_DAMP_MM) return 'damp';
  return filmMm <= FILM_VISIBLE_MM && soakedMm <= SOAKED_DAMP_MM ? 'dry' : 'unknown';
}

/**
 * First moment from which a deck is dry and stays so for half an hour.
 * @returns [ms], not before `fromMs`; null where that does not happen within what is known
 */
export function fitFrom(surface: SurfaceWeather, m: number, fromMs: number): number | null {
  const { startMs, stepMs, steps } = surface.time;
  const enough = Math.ceil(STAYS_DRY_MS / stepMs);
  let dry = 0;
  for (let i = Math.max(0, Math.floor((fromMs - startMs) / stepMs)); i < steps; i += 1) {
    const state = deckState(surface, m, i);
    if (state === 'dry') {
      dry += 1;
      if (dry === enough) return Math.max(fromMs, startMs + (i - enough + 1) * stepMs);
    } else {
      dry = 0;
    }
  }
  return null;
}
