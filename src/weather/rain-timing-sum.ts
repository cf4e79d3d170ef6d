/** One rain sum into two or three parts. */
import { seededRandom } from '../units/index.ts';
import type { Lean } from './rain-timing-guide.ts';
import {
  excessClass,
  LEAST_WET_MM,
  logWeight,
  mostWetParts,
  partWeights,
  type SplitContext,
  type SplitModel,
  shareAt,
  wetCount,
} from './rain-timing-model.ts';

/** What a draw depends on, and nothing else. */
export interface DrawKey {
  readonly seed: number;
  readonly member: number;
  /** Hours since the epoch at the start of the sum. */
  readonly startHour: number;
  /** Length of the sum [h]: the half of a day and its own first half start together. */
  readonly hours: number;
}

/** The draws of one sum; each sum has its own, so none shifts when another sum needs more or fewer. */
export function drawsOf(key: DrawKey): () => number {
  let h = Math.imul(key.seed | 0, 0x9e3779b1);
  for (const part of [key.member, key.startHour, key.hours]) {
    h = Math.imul(h ^ (part | 0), 0x85ebca6b);
    h ^= h >>> 15;
    h = Math.imul(h, 0xc2b2ae35);
    h ^= h >>> 13;
  }
  return seededRandom(h);
}

const NO_PUSH = [0, 0, 0];

/** @returns the parts [mm]; they add up to the sum but for the last digit. */
export function splitSum(
  model: SplitModel,
  at: SplitContext,
  lean: Lean | null,
  draw: () => number,
): number[] {
  const push = lean?.perPart ?? NO_PUSH;
  const wet = partsIn(drawPattern(model, at, push, draw()), model.parts);
  const out: number[] = new Array(model.parts).fill(0);
  if (wet.length === 1) {
    out[wet[0]!] = at.sumMm;
    return out;
  }
  let excessMm = Math.max(0, at.sumMm - wet.length * LEAST_WET_MM);
  const shares = wet.length === 2 ? [model.pair] : model.triple;
  shares.forEach((share, k) => {
    const cell = share[excessClass(excessMm)]![at.tilt]!;
    const rest = wet.slice(k + 1);
    const behind = rest.reduce((s, i) => s + push[i]!, 0) / rest.length;
    const mm = excessMm * shareAt(cell, draw(), push[wet[k]!]! - behind);
    out[wet[k]!] = LEAST_WET_MM + mm;
    excessMm -= mm;
  });
  out[wet.at(-1)!] = LEAST_WET_MM + excessMm;
  return out;
}

function drawPattern(
  model: SplitModel,
  at: SplitContext,
  push: readonly number[],
  u: number,
): number {
  const most = mostWetParts(at.sumMm);
  const partLogs = partWeights(model.pattern, model.parts, at);
  for (let i = 0; i < model.parts; i += 1) partLogs[i]! += push[i]!;
  const last = (1 << model.parts) - 1;
  const weight: number[] = [0];
  let total = 0;
  for (let pattern = 1; pattern <= last; pattern += 1) {
    const may = wetCount(pattern) <= most;
    weight.push(may ? Math.exp(logWeight(model.pattern, pattern, at.sumMm, partLogs)) : 0);
    total += weight[pattern]!;
  }
  let left = u * total;
  for (let pattern = 1; pattern < last; pattern += 1) {
    left -= weight[pattern]!;
    if (left < 0) return pattern;
  }
  // Rounding may leave a last crumb; it must not go to a pattern the sum is too small for.
  return weight[last]! > 0 ? last : 1;
}

function partsIn(pattern: number, parts: number): number[] {
  const out: number[] = [];
  for (let i = 0; i < parts; i += 1) if ((pattern & (1 << i)) !== 0) out.push(i);
  return out;
}
