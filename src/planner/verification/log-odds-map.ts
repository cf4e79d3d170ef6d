import { checkCases, type FitCase, outcomeOf } from './cases.ts';
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
  const rows = cases.map((one) => ({
    terms: terms(inside(one.chance)),
    weight: one.weight,
    outcome: outcomeOf(one),
  }));
  let free = asGiven.map(() => true);
  let fitted = climb(rows, asGiven, free, asGiven);
  // A slope below 0 would let a surer day become the less sure one: hold it at 0 and fit the rest.
  while (fitted.some((value, i) => i < asGiven.length - 1 && value < 0)) {
    free = free.map((is, i) => is && (i === asGiven.length - 1 || fitted[i]! >= 0));
    const start = fitted.map((value, i) => (free[i] ? value : 0));
    fitted = climb(rows, asGiven, free, start);
  }
  return (chance) => expit(dot(fitted, terms(inside(chance))));
}

interface Row {
  readonly terms: readonly number[];
  readonly weight: number;
  readonly outcome: 0 | 1;
}

/** Newton's method with halved steps on a function with one valley. */
function climb(
  rows: readonly Row[],
  asGiven: readonly number[],
  free: readonly boolean[],
  start: readonly number[],
): readonly number[] {
  let at = start;
  let loss = lossOf(rows, asGiven, at);
  for (let round = 0; round < 100; round += 1) {
    const step = newtonStep(rows, asGiven, free, at);
    let share = 1;
    let next = at;
    let nextLoss = loss;
    for (; share > 1e-10; share /= 2) {
      next = at.map((value, i) => value + share * step[i]!);
      nextLoss = lossOf(rows, asGiven, next);
      if (nextLoss <= loss) break;
    }
    if (!(nextLoss < loss)) return at;
    const gain = loss - nextLoss;
    at = next;
    loss = nextLoss;
    if (gain < 1e-13 * (1 + loss)) return at;
  }
  return at;
}

function lossOf(rows: readonly Row[], asGiven: readonly number[], at: readonly number[]): number {
  const pull = at.reduce((sum, value, i) => sum + (value - asGiven[i]!) ** 2, 0);
  return rows.reduce(
    (sum, { terms, weight, outcome }) => {
      const odds = dot(at, terms);
      return sum + weight * softplus(outcome === 1 ? -odds : odds);
    },
    (RIDGE / 2) * pull,
  );
}

function newtonStep(
  rows: readonly Row[],
  asGiven: readonly number[],
  free: readonly boolean[],
  at: readonly number[],
): number[] {
  const size = at.length;
  const down = at.map((value, i) => -RIDGE * (value - asGiven[i]!));
  const curve = at.map((_, i) => at.map((__, j) => (i === j ? RIDGE : 0)));
  for (const { terms, weight, outcome } of rows) {
    const chance = expit(dot(at, terms));
    for (let i = 0; i < size; i += 1) {
      down[i]! += weight * (outcome - chance) * terms[i]!;
      for (let j = 0; j < size; j += 1) {
        curve[i]![j]! += weight * chance * (1 - chance) * terms[i]! * terms[j]!;
      }
    }
  }
  const kept = free.flatMap((is, i) => (is ? [i] : []));
  const solved = solve(
    kept.map((i) => kept.map((j) => curve[i]![j]!)),
    kept.map((i) => down[i]!),
  );
  return at.map((_, i) => (free[i] ? solved[kept.indexOf(i)]! : 0));
}

function inside(chance: number): number {
  if (!(chance > 0 && chance < 1)) throw new RangeError(`chance (${chance}) must be inside 0..1`);
  return chance;
}

const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, value, i) => sum + value * b[i]!, 0);
const softplus = (x: number): number => Math.max(x, 0) + Math.log1p(Math.exp(-Math.abs(x)));
const expit = (x: number): number => 1 / (1 + Math.exp(-x));
