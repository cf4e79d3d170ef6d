import type { Activity } from '../stages/index.ts';

/** 'Press in and roll: eaves, 1 of 2 (3 m)' -> 'eaves, 1 of 2'; a title without a colon stays whole. */
export function partName({ title, stage }: Activity): string {
  if (stage === 'night-seal') return 'towards the next bay';
  return title
    .slice(title.indexOf(': ') + (title.includes(': ') ? 2 : 0))
    .replace(/ \([^)]*\)$/, '');
}
