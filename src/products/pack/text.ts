/**
 * Whole numbers as text that is short once compressed: a smooth column is written as what its
 * straight continuation misses, each number in one or two characters of plain ASCII.
 */

/** '#' to '~' without the backslash: nothing JSON would escape. */
const LETTERS = Array.from({ length: 92 }, (_, n) => String.fromCharCode(35 + n))
  .filter((letter) => letter !== '\\')
  .slice(0, 90)
  .join('');
/** Digits of a number; the same again, set off by this, means that more follow. */
const BASE = 45;
/** No column holds a larger number. */
const LARGEST = 2 ** 31 - 1;

const VALUE_OF = new Map([...LETTERS].map((letter, n) => [letter, n]));

/** How a column goes on: 0 = as nothing, 1 = as it stood, 2 = as it ran. */
export type Order = 0 | 1 | 2;

function expected(order: Order, last: number, before: number): number {
  return order === 0 ? 0 : order === 1 ? last : 2 * last - before;
}

/** @param column  whole numbers within 31 bits */
export function writeNumbers(column: ArrayLike<number>, order: Order): string {
  let text = '';
  let last = 0;
  let before = 0;
  for (let i = 0; i < column.length; i += 1) {
    const missed = column[i]! - expected(order, last, before);
    // 0, -1, 1, -2 ... as 0, 1, 2, 3 ...
    let rest = missed < 0 ? -2 * missed - 1 : 2 * missed;
    while (rest >= BASE) {
      text += LETTERS[BASE + (rest % BASE)]!;
      rest = Math.floor(rest / BASE);
    }
    text += LETTERS[rest]!;
    before = last;
    last = column[i]!;
  }
  return text;
}

/** @returns exactly `length` whole numbers, or null where the text does not hold just those */
export function readNumbers(text: unknown, order: Order, length: number): Int32Array | null {
  if (typeof text !== 'string' || text.length > length * 6) return null;
  const column = new Int32Array(length);
  let at = 0;
  let last = 0;
  let before = 0;
  for (let i = 0; i < length; i += 1) {
    let rest = 0;
    let scale = 1;
    for (;;) {
      const digit = VALUE_OF.get(text[at] ?? '');
      if (digit === undefined) return null;
      at += 1;
      rest += (digit % BASE) * scale;
      if (digit < BASE) break;
      scale *= BASE;
      if (scale > BASE ** 7) return null;
    }
    const missed = rest % 2 === 1 ? -(rest + 1) / 2 : rest / 2;
    const value = expected(order, last, before) + missed;
    if (Math.abs(value) > LARGEST) return null;
    column[i] = value;
    before = last;
    last = value;
  }
  return at === text.length ? column : null;
}

/** FNV-1a, 32 bits, over UTF-16 units: notices a copy that was cut or changed, not one made on purpose. */
export function checkOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) {
    hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}
