import { FILM_VISIBLE_MM, SOAKED_DAMP_MM } from '../../weather/index.ts';
import type { Rule } from './rule.ts';

/** The surface shows no water and is not damp; frost and dew count as water. */
export const deckDry: Rule = {
  id: 'deck-dry',
  whose: 'visible moisture',
  words: 'a wet or damp surface',
  broken: ({ surface, freshlyOpened }, at) => {
    if (surface.dewMarginK[at]! <= 0) return true;
    if (freshlyOpened) return false;
    return surface.filmMm[at]! > FILM_VISIBLE_MM || surface.soakedMm[at]! > SOAKED_DAMP_MM;
  },
};
