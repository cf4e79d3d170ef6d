import { FILM_VISIBLE_MM, SOAKED_DAMP_MM } from '../../weather/index.ts';
import { markAbove, markUpTo } from './marks.ts';
import type { Rule } from './rule.ts';

/** The surface shows no water and is not damp; frost and dew count as water. */
export const deckDry: Rule = {
  id: 'deck-dry',
  whose: 'visible moisture',
  words: 'a wet or damp surface',
  mark: ({ surface, freshlyOpened }, marks) => {
    markUpTo(marks, surface.dewMarginK, 0);
    if (freshlyOpened) return;
    markAbove(marks, surface.filmMm, FILM_VISIBLE_MM);
    markAbove(marks, surface.soakedMm, SOAKED_DAMP_MM);
  },
};
