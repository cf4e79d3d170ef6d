import type { Tried } from '../../contract/index.ts';
import { money } from '../../units/index.ts';
import { wrap } from './table.ts';

const WORDS: Readonly<Record<Exclude<keyof Tried, 'bay'>, string>> = {
  standDown: 'standing down',
  calledOff: 'called off the evening before',
  shortened: 'shortened day',
  caughtOpen: 'caught open',
  waitPerDay: 'each day of waiting',
};

/** What this answer was made with that is not the job's own. */
export function triedLines(tried: Tried, currency: string): string[] {
  const parts = (Object.keys(WORDS) as (keyof typeof WORDS)[]).flatMap((name) => {
    const value = tried[name];
    return value === undefined ? [] : [`${WORDS[name]} ${money(value, currency)}`];
  });
  if (tried.bay !== undefined) parts.push(`a bay of ${tried.bay} m²`);
  return parts.length === 0 ? [] : wrap(`Tried, not saved: ${parts.join(', ')}.`, '');
}
