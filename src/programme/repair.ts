import { type Chosen, isFree, take } from './chosen.ts';
import type { Packing } from './packing.ts';

/** How good an option looks to a repair; larger is better. */
export type Score = (option: number) => number;

/**
 * Takes the option that looks best, again and again, as long as one fits.
 * @param candidates  options to choose from
 */
export function fillGreedily(
  packing: Packing,
  chosen: Chosen,
  candidates: readonly number[],
  score: Score,
): void {
  const scored = candidates.map((option) => ({ option, score: score(option) }));
  scored.sort((a, b) => b.score - a.score || a.option - b.option);
  for (const { option } of scored) {
    if (chosen.option[packing.taskOf[option]!] === -1 && isFree(packing, chosen, option))
      take(packing, chosen, option);
  }
}

/**
 * Takes first what would be missed most: the task whose best option that still fits is furthest above
 * its second best, or that has only one left (regret insertion, Potvin and Rousseau, EJOR 66, 1993).
 */
export function fillByRegret(
  packing: Packing,
  chosen: Chosen,
  candidates: readonly number[],
  score: Score,
): void {
  const byTask = new Map<number, { option: number; score: number }[]>();
  for (const option of candidates) {
    const task = packing.taskOf[option]!;
    const own = byTask.get(task) ?? [];
    own.push({ option, score: score(option) });
    byTask.set(task, own);
  }
  const waiting = [...byTask.entries()]
    .filter(([task]) => chosen.option[task] === -1)
    .map(([task, own]) => {
      own.sort((a, b) => b.score - a.score || a.option - b.option);
      return { task, own, best: 0, second: 0 };
    });
  while (waiting.length > 0) {
    let most = Number.NEGATIVE_INFINITY;
    let pick = -1;
    for (let w = waiting.length - 1; w >= 0; w -= 1) {
      const it = waiting[w]!;
      it.best = nextFree(packing, chosen, it.own, it.best);
      if (it.best === it.own.length) {
        waiting[w] = waiting[waiting.length - 1]!;
        waiting.pop();
        continue;
      }
      it.second = nextFree(packing, chosen, it.own, Math.max(it.second, it.best + 1));
    }
    for (const [w, it] of waiting.entries()) {
      const best = it.own[it.best]!.score;
      const missed = best - (it.own[it.second]?.score ?? 0);
      // What is worth more goes first where both would be missed as much.
      const urgency = missed + 0.1 * best;
      if (urgency > most) {
        most = urgency;
        pick = w;
      }
    }
    if (pick < 0) return;
    const it = waiting[pick]!;
    take(packing, chosen, it.own[it.best]!.option);
    waiting[pick] = waiting[waiting.length - 1]!;
    waiting.pop();
  }
}

/** Slots are only ever taken while filling, so that what did not fit before does not fit now. */
function nextFree(
  packing: Packing,
  chosen: Chosen,
  own: readonly { readonly option: number }[],
  from: number,
): number {
  let n = from;
  while (n < own.length && !isFree(packing, chosen, own[n]!.option)) n += 1;
  return n;
}
