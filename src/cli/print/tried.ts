import type { Tried } from '../../contract/index.ts';
import { wrap } from './table.ts';

const WORDS: Readonly<Record<keyof Tried, (value: number) => string>> = {
  standDown: (value) => `standing down ${value}`,
  calledOff: (value) => `called off the evening before ${value}`,
  shortened: (value) => `shortened day ${value}`,
  caughtOpen: (value) => `caught open ${value}`,
  waitPerDay: (value) => `each day of waiting ${value}`,
  bay: (value) => `a bay of ${value} m²`,
};

/** What this answer was made with that is not the job's own. */
export function triedLines(tried: Tried): string[] {
  const parts = (Object.keys(WORDS) as (keyof Tried)[]).flatMap((name) => {
    const value = tried[name];
    return value === undefined ? [] : [WORDS[name](value)];
  });
  return parts.length === 0 ? [] : wrap(`Tried, not saved: ${parts.join(', ')}.`, '');
}
