import type { Model } from './model.ts';

/**
 * Resources side by side in 31-bit words, a spare bit above each: one subtraction tells whether a period
 * has enough left of all of them. Resources that can never run short are left out.
 */
export interface Packed {
  readonly words: number;
  /** Full capacity with the spare bits set, per word. */
  readonly full: Int32Array;
  /** The spare bits alone, per word. */
  readonly spare: Int32Array;
  /** [activity * words + word] */
  readonly need: Int32Array;
}

const WORD_BITS = 31;

/** @returns the packed resources, or null when some activity needs more than there ever is */
export function pack(model: Model): Packed | null {
  const { count, resources, demand, capacity, duration } = model;
  const places: { k: number; word: number; shift: number; bits: number }[] = [];
  let words = 0;
  let used = WORD_BITS;
  for (let k = 0; k < resources; k += 1) {
    let sum = 0;
    for (let i = 0; i < count; i += 1) {
      if (duration[i] === 0) continue;
      if (demand[i * resources + k]! > capacity[k]!) return null;
      sum += demand[i * resources + k]!;
    }
    if (sum <= capacity[k]!) continue;
    const bits = 33 - Math.clz32(capacity[k]!);
    if (used + bits > WORD_BITS) {
      words += 1;
      used = 0;
    }
    places.push({ k, word: words - 1, shift: used, bits });
    used += bits;
  }
  const full = new Int32Array(words);
  const spare = new Int32Array(words);
  const need = new Int32Array(count * words);
  for (const { k, word, shift, bits } of places) {
    spare[word]! |= 1 << (shift + bits - 1);
    full[word]! |= (capacity[k]! << shift) | (1 << (shift + bits - 1));
    for (let i = 0; i < count; i += 1) {
      if (duration[i]! > 0) need[i * words + word]! |= demand[i * resources + k]! << shift;
    }
  }
  return { words, full, spare, need };
}
