/** One-dimensional cutting stock: which lengths come off which roll. */

/** Partial fillings looked at before the best found so far is taken. */
const MOST_STEPS = 20_000;
const EPS = 1e-9;

export interface Filling {
  /** For each roll the indexes of the lengths cut from it. */
  readonly rolls: readonly (readonly number[])[];
  /** No filling has fewer rolls. */
  readonly proven: boolean;
}

/**
 * Fewest rolls for these lengths: longest first into the fullest roll that takes it, then an exact search
 * unless that already meets the bound.
 * @param lengths each at most `rollM`
 */
export function fillRolls(lengths: readonly number[], rollM: number): Filling {
  const order = lengths.map((_, i) => i).sort((a, b) => lengths[b]! - lengths[a]! || a - b);
  const quick = fullestFirst(order, lengths, rollM);
  const bound = leastRolls(lengths, rollM);
  if (quick.length <= bound) return { rolls: quick, proven: true };
  return search(order, lengths, rollM, quick, bound);
}

function fullestFirst(
  order: readonly number[],
  lengths: readonly number[],
  rollM: number,
): number[][] {
  const rolls: number[][] = [];
  const left: number[] = [];
  for (const i of order) {
    let best = -1;
    left.forEach((rest, r) => {
      if (rest >= lengths[i]! - EPS && (best < 0 || rest < left[best]! - EPS)) best = r;
    });
    if (best < 0) {
      best = rolls.length;
      rolls.push([]);
      left.push(rollM);
    }
    rolls[best]!.push(i);
    left[best]! -= lengths[i]!;
  }
  return rolls;
}

/** Total length, and lengths of which no two fit one roll, sharpened by what cannot lie beside them. */
function leastRolls(lengths: readonly number[], rollM: number): number {
  const total = lengths.reduce((sum, l) => sum + l, 0);
  let bound = Math.ceil(total / rollM - EPS);
  for (const small of lengths) {
    if (small > rollM / 2) continue;
    const big = lengths.filter((l) => l > rollM - small + EPS).length;
    const mid = lengths.filter((l) => l <= rollM - small + EPS && l > rollM / 2 + EPS);
    const low = lengths.filter((l) => l <= rollM / 2 + EPS && l >= small - EPS);
    const sum = (list: readonly number[]): number => list.reduce((s, l) => s + l, 0);
    const free = mid.length * rollM - sum(mid);
    const more = Math.max(0, Math.ceil((sum(low) - free) / rollM - EPS));
    bound = Math.max(bound, big + mid.length + more);
  }
  return bound;
}

function search(
  order: readonly number[],
  lengths: readonly number[],
  rollM: number,
  known: number[][],
  bound: number,
): Filling {
  let best = known;
  let steps = 0;
  const rolls: number[][] = [];
  const left: number[] = [];
  const rest = order.map((_, k) => order.slice(k).reduce((sum, i) => sum + lengths[i]!, 0));
  const put = (k: number): void => {
    steps += 1;
    if (steps > MOST_STEPS || best.length <= bound) return;
    if (k === order.length) {
      if (rolls.length < best.length) best = rolls.map((r) => [...r]);
      return;
    }
    const room = left.reduce((sum, l) => sum + l, 0);
    if (rolls.length + Math.max(0, Math.ceil((rest[k]! - room) / rollM - EPS)) >= best.length)
      return;
    const i = order[k]!;
    const length = lengths[i]!;
    const tried: number[] = [];
    for (let r = 0; r < rolls.length; r += 1) {
      const free = left[r]!;
      if (free < length - EPS || tried.some((t) => Math.abs(t - free) < EPS)) continue;
      tried.push(free);
      rolls[r]!.push(i);
      left[r] = free - length;
      put(k + 1);
      left[r] = free;
      rolls[r]!.pop();
    }
    if (rolls.length + 1 < best.length) {
      rolls.push([i]);
      left.push(rollM - length);
      put(k + 1);
      rolls.pop();
      left.pop();
    }
  };
  put(0);
  return { rolls: best, proven: steps <= MOST_STEPS || best.length <= bound };
}
