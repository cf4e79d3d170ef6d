import { checkCases, type FitCase } from './cases.ts';
import type { ChanceMap } from './chance-map.ts';
import { solve } from './solve.ts';

/**
 * Pull towards leaving chances as given: on the constant as strong as eight cases at even odds, which
 * inform by 1/4 each (a choice of ours). It makes the fit exist when all cases end alike.
 */
const RIDGE = 2;

/**
 * ln odds' = a ln odds + c: chances too bold (a < 1) or too timid, too high or too low.
 * @throws RangeError without cases or for a chance of exactly 0 or 1
 * @source J. Platt in Advances in Large Margin Classifiers (1999); here by penalised maximum likelihood
 */
export function fitLogistic(cases: readonly FitCase[]): ChanceMap {
  const terms = (chance: number): number[] => [Math.log(chance) - Math.log1p(-chance), 1];
  return { kind: 'logistic', apply: fitLogOdds('fitLogistic', cases, terms, [1, 0]) };
}

/**
 * ln odds' = a ln p - b ln (1 - p) + c: as the logistic map, but free to differ at the two ends.
 * @throws RangeError without cases or for a chance of exactly 0 or 1
 * @source M. Kull, T. Silva Filho, P. Flach, Proceedings of Machine Learning Research 54 (2017), 623-631
 */
export function fitBeta(cases: readonly FitCase[]): ChanceMap {
  const terms = (chance: number): number[] => [Math.log(chance), -Math.log1p(-chance), 1];
  return { kind: 'beta', apply: fitLogOdds('fitBeta', cases, terms, [1, 1, 0]) };
}

type Terms = (chance: number) => readonly number[];

/** The last term is the constant; the others carry slopes, which must not fall below 0. */
function fitLogOdds(
  what: string,
  cases: readonly FitCase[],
  terms: Terms,
  asGiven: readonly number[],
): (chance: number) => number {
  checkCases(what, cases);
  const table = tableOf(cases, terms, asGiven);
  let free = asGiven.map(() => true);
  let fitted = climb(table, free, asGiven);
  // A slope below 0 would let a surer day become the less sure one: hold it at 0 and fit the rest.
  while (fitted.some((value, i) => i < asGiven.length - 1 && value < 0)) {
    free = free.map((is, i) => is && (i === asGiven.length - 1 || fitted[i]! >= 0));
    const start = fitted.map((value, i) => (free[i] ? value : 0));
    fitted = climb(table, free, start);
  }
  return (chance) => expit(dot(fitted, terms(inside(chance))));
}

/** The cases as plain columns: a record of years is fitted a hundred times over to judge it. */
interface Table {
  readonly asGiven: readonly number[];
  /** Terms of one case after the other. */
  readonly terms: Float64Array;
  readonly weights: Float64Array;
  /** 1 where it happened, -1 where not. */
  readonly signs: Float64Array;
}

function tableOf(cases: readonly FitCase[], terms: Terms, asGiven: readonly number[]): Table {
  return {
    asGiven,
    terms: Float64Array.from(cases.flatMap(({ chance }) => terms(inside(chance)))),
    weights: Float64Array.from(cases, ({ weight }) => weight),
    signs: Float64Array.from(cases, ({ happened }) => (happened ? 1 : -1)),
  };
}

interface Slope {
  readonly loss: number;
  /** Against the rise of the loss, and how that changes. */
  readonly down: readonly number[];
  readonly curve: readonly (readonly number[])[];
}

/** Newton's method with halved steps, on a loss that has one valley. */
function climb(
  table: Table,
  free: readonly boolean[],
  start: readonly number[],
): readonly number[] {
  let at = start;
  let here = slopeAt(table, at);
  for (let round = 0; round < 100; round += 1) {
    const step = newtonStep(here, free);
    let next = at;
    let there = here;
    for (let share = 1; share > 1e-10; share /= 2) {
      next = at.map((value, i) => value + share * step[i]!);
      there = slopeAt(table, next);
      if (there.loss <= here.loss) break;
    }
    if (!(there.loss < here.loss)) return at;
    const gain = here.loss - there.loss;
    at = next;
    here = there;
    if (gain < 1e-13 * (1 + here.loss)) return at;
  }
  return at;
}

function slopeAt({ asGiven, terms, weights, signs }: Table, at: readonly number[]): Slope {
  const size = at.length;
  let loss = at.reduce((sum, value, i) => sum + (RIDGE / 2) * (value - asGiven[i]!) ** 2, 0);
  const down = at.map((value, i) => -RIDGE * (value - asGiven[i]!));
  const curve = at.map((_, i) => at.map((__, j) => (i === j ? RIDGE : 0)));
  for (let n = 0; n < weights.length; n += 1) {
    let odds = 0;
    for (let i = 0; i < size; i += 1) odds += at[i]! * terms[n * size + i]!;
    const weight = weights[n]!;
    const sign = signs[n]!;
    loss += weight * softplus(-sign * odds);
    const wrong = expit(-sign * odds);
    const bend = weight * wrong * (1 - wrong);
    for (let i = 0; i < size; i += 1) {
      const term = terms[n * size + i]!;
      down[i]! += weight * sign * wrong * term;
      for (let j = 0; j <= i; j += 1) curve[i]![j]! += bend * term * terms[n * size + j]!;
    }
  }
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < i; j += 1) curve[j]![i] = curve[i]![j]!;
  }
  return { loss, down, curve };
}

function newtonStep({ down, curve }: Slope, free: readonly boolean[]): number[] {
  const kept = free.flatMap((is, i) => (is ? [i] : []));
  const solved = solve(
    kept.map((i) => kept.map((j) => curve[i]![j]!)),
    kept.map((i) => down[i]!),
  );
  return free.map((is, i) => (is ? solved[kept.indexOf(i)]! : 0));
}

function inside(chance: number): number {
  if (!(chance > 0 && chance < 1)) throw new RangeError(`chance (${chance}) must be inside 0..1`);
  return chance;
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * b[i]!, 0);
const softplus = (x: number): number => Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));
const expit = (x: number): number => 1 / (1 + Math.exp(-x));
