import { textLength } from './text-length.ts';
import type { Names } from './text-wordings.ts';

/** Words that say nothing at the end of a name. */
const HANGING = /^(and|saint|of|the|at|in|on|for|to|by|a|an|de|la|le|der|die|das|und|&|-)$/i;

/**
 * Names with fewer and fewer words, always the longest name first.
 * @param leastWords  a name of more is cut no further than this; words left hanging at its end go too
 */
export function* shortened(names: Names, leastWords: number): Generator<Names> {
  let now = names;
  for (;;) {
    yield now;
    const longest = (['site', 'client', 'firm'] as const)
      .map((key) => ({
        key,
        shorter: withoutLastWord(now[key], leastWords),
        units: unitsOf(now[key]),
      }))
      .filter(({ shorter }) => shorter !== null)
      .sort((a, b) => b.units - a.units)[0];
    if (longest === undefined) return;
    now = { ...now, [longest.key]: longest.shorter };
  }
}

const unitsOf = (name: string): number => textLength(name).units;

function withoutLastWord(name: string, leastWords: number): string | null {
  const words = name.split(' ');
  words.pop();
  if (words.length < leastWords) return null;
  while (words.length > 1 && HANGING.test(words.at(-1)!)) words.pop();
  const shorter = words.join(' ').replace(/[,;:.\-–]+$/u, '');
  return shorter === '' ? null : shorter;
}
