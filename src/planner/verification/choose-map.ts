import { checkCases, type FitCase, outcomeOf } from './cases.ts';
import { AS_GIVEN, type ChanceMap, MAP_KINDS, type MapKind } from './chance-map.ts';
import { fitIsotonic } from './isotonic.ts';
import { fitBeta, fitLogistic } from './log-odds-map.ts';

const FOLDS = 5;

const FITS: Readonly<Record<MapKind, (cases: readonly FitCase[]) => ChanceMap>> = {
  'as given': () => AS_GIVEN,
  logistic: fitLogistic,
  beta: fitBeta,
  isotonic: fitIsotonic,
};

export interface MapChoice {
  readonly map: ChanceMap;
  /** Brier score by weight, each case judged by a map that has not seen its group. */
  readonly scores: Readonly<Record<MapKind, number>>;
}

/**
 * The kind of map that does best on groups it has not seen, fitted to all cases. Where none does better
 * than the chances as given, or where there is one group only, they stay as they are.
 * @param cases  chances inside 0..1, as openShare makes them
 * @throws RangeError without cases
 */
export function chooseMap(cases: readonly FitCase[]): MapChoice {
  checkCases('chooseMap', cases);
  const folds = foldsOf(cases);
  const scores = Object.fromEntries(
    MAP_KINDS.map((kind) => [kind, unseenScore(folds, FITS[kind])]),
  ) as Record<MapKind, number>;
  const best = MAP_KINDS.reduce((a, b) => (scores[b] < scores[a] ? b : a));
  return { map: FITS[best](cases), scores };
}

export interface Unseen {
  /** Chances after a map chosen and fitted without their group, in the order of the cases. */
  readonly chances: readonly number[];
  /** Brier scores by weight. */
  readonly before: number;
  readonly after: number;
}

/**
 * What choosing and fitting a map is worth, by nested cross-validation: the choice, too, is made
 * without the group it is judged on.
 * @returns null with fewer than three groups, too few to leave one out and still choose
 * @throws RangeError without cases
 */
export function judgeChoice(cases: readonly FitCase[]): Unseen | null {
  checkCases('judgeChoice', cases);
  const folds = foldsOf(cases);
  if (folds.length < 3) return null;
  const mapped = new Map<FitCase, number>();
  for (const { inside, outside } of folds) {
    const { map } = chooseMap(outside);
    for (const one of inside) mapped.set(one, map.apply(one.chance));
  }
  const chances = cases.map((one) => mapped.get(one)!);
  return {
    chances,
    before: weightedBrier(cases, ({ chance }) => chance),
    after: weightedBrier(cases, (one) => mapped.get(one)!),
  };
}

interface Fold {
  readonly inside: readonly FitCase[];
  readonly outside: readonly FitCase[];
}

/** Runs of neighbouring groups: weather lasts for days, and a day has neighbours on both sides. */
function foldsOf(cases: readonly FitCase[]): Fold[] {
  const groups = [...new Set(cases.map(({ group }) => group))].sort();
  const count = Math.min(FOLDS, groups.length);
  const foldOf = new Map(
    groups.map((group, i) => [group, Math.floor((i * count) / groups.length)]),
  );
  return Array.from({ length: count }, (_, fold) => ({
    inside: cases.filter(({ group }) => foldOf.get(group) === fold),
    outside: cases.filter(({ group }) => foldOf.get(group) !== fold),
  }));
}

function unseenScore(
  folds: readonly Fold[],
  fitTo: (cases: readonly FitCase[]) => ChanceMap,
): number {
  let sum = 0;
  let weight = 0;
  for (const { inside, outside } of folds) {
    const map = outside.length > 0 ? fitTo(outside) : AS_GIVEN;
    for (const one of inside) {
      sum += one.weight * (map.apply(one.chance) - outcomeOf(one)) ** 2;
      weight += one.weight;
    }
  }
  return sum / weight;
}

function weightedBrier(cases: readonly FitCase[], chanceOf: (one: FitCase) => number): number {
  const total = cases.reduce((sum, { weight }) => sum + weight, 0);
  return (
    cases.reduce((sum, one) => sum + one.weight * (chanceOf(one) - outcomeOf(one)) ** 2, 0) / total
  );
}
