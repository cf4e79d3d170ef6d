import { adjustChance } from '../../src/planner/index.ts';
import {
  type BrierParts,
  baseRate,
  bootstrapInterval,
  brierParts,
  brierScore,
  brierSkill,
  type FitCase,
  type Flatness,
  fairBrier,
  fairCrps,
  flatness,
  type Interval,
  type JudgedChance,
  judgeChoice,
  openShare,
  type ReliabilityPoint,
  rankHistogram,
  rankShares,
  reliabilityDiagram,
  sharpness,
  type ValuePoint,
  valueCurve,
} from '../../src/planner/verification/index.ts';
import type { DatedCase } from './weather-data.ts';
import type { Variable } from './weather-variables.ts';

const SEED = 20261125;
const DRAWS = 500;
export const RATIOS = [0.05, 0.1, 0.2, 0.3, 0.5];
/** Days below which nothing is said of chances: only the code is run. */
const DAYS_TO_JUDGE = 10;
const CASES_TO_JUDGE = 100;

export interface Difference {
  readonly value: number;
  readonly interval: Interval | null;
}

export interface Judged {
  readonly variable: Variable;
  readonly cases: number;
  readonly days: number;
  readonly forecasts: number;
  readonly often: number;
  readonly parts: BrierParts;
  readonly brier: Difference;
  readonly fair: number;
  readonly skill: Difference | null;
  /** Brier score less that of the share as counted: shrunk as shipped, and mended on unseen days. */
  readonly shrunk: Difference;
  readonly mended: Difference | null;
  readonly crps: Difference;
  readonly spread: number;
  readonly below: number;
  readonly above: number;
  /** The same without ties. */
  readonly strictlyBelow: number;
  readonly strictlyAbove: number;
  readonly flat: Flatness;
  readonly points: readonly ReliabilityPoint[];
  readonly value: readonly ValuePoint[] | null;
  readonly canJudge: boolean;
}

interface Row {
  readonly day: string;
  readonly happened: boolean;
  readonly share: number;
  readonly shrunk: number;
  readonly mended: number | null;
  readonly crps: number;
}

/** Everything the machinery says of one variable at its one lead time. */
export function judge(variable: Variable, cases: readonly DatedCase[]): Judged {
  const rows = rowsOf(variable, cases);
  const as = (chanceOf: (row: Row) => number): JudgedChance[] =>
    rows.map((row) => ({ chance: chanceOf(row), happened: row.happened }));
  const counted = as(({ share }) => share);
  const often = baseRate(counted);
  const days = new Set(rows.map(({ day }) => day)).size;
  const canJudge = days >= DAYS_TO_JUDGE && rows.length >= CASES_TO_JUDGE;
  const perDay = sumsByDay(rows);
  const mean = (of: (sums: Sums) => number) => meanOver(perDay, of);
  const score = brierScore(counted);
  const ranks = cases.map(rankShares);
  const size = cases[0]!.members.length;
  const parts = brierParts(counted, 10);
  return {
    variable,
    cases: rows.length,
    days,
    forecasts: size,
    often,
    parts,
    brier: mean(({ share }) => share),
    fair:
      cases.reduce((sum, { members, observed }) => {
        const count = members.filter(variable.happens).length;
        return sum + fairBrier(count, size, variable.happens(observed));
      }, 0) / cases.length,
    skill:
      variable.selected === null && often > 0 && often < 1
        ? { value: brierSkill(score, parts.uncertainty), interval: skillInterval(perDay) }
        : null,
    shrunk: mean(({ shrunk, share }) => shrunk - share),
    mended:
      variable.selected === null && rows.every((row) => row.mended !== null)
        ? mean(({ mended, share }) => mended - share)
        : null,
    crps: mean(({ crps }) => crps),
    spread: Math.sqrt(sharpness(counted, 10).variance!),
    below: ranks.reduce((sum, shares) => sum + shares[0]!, 0) / ranks.length,
    above: ranks.reduce((sum, shares) => sum + shares.at(-1)!, 0) / ranks.length,
    strictlyBelow: shareOf(cases, ({ members, observed }) => observed < Math.min(...members)),
    strictlyAbove: shareOf(cases, ({ members, observed }) => observed > Math.max(...members)),
    flat: flatness(rankHistogram(cases, SEED)),
    points: reliabilityDiagram(counted, { binning: 10, seed: SEED, draws: DRAWS }),
    value: variable.selected === null ? valueCurve(counted, RATIOS) : null,
    canJudge,
  };
}

const shareOf = <T>(items: readonly T[], holds: (item: T) => boolean): number =>
  items.filter(holds).length / items.length;

function rowsOf(variable: Variable, cases: readonly DatedCase[]): Row[] {
  const of = cases[0]!.members.length;
  const counts = cases.map(({ members }) => members.filter(variable.happens).length);
  const happened = cases.map(({ observed }) => variable.happens(observed));
  // Days selected by their weather would teach a map the wrong frequency.
  const mended = variable.selected === null ? mendedOf(cases, counts, happened, of) : null;
  const leadDays = variable.leadHours / 24;
  return cases.map(({ day, members, observed }, i) => ({
    day,
    happened: happened[i]!,
    share: counts[i]! / of,
    shrunk: adjustChance({ count: counts[i]!, of, crossFit: counts[i]! / of, leadDays }).adjusted!,
    mended: mended === null ? null : mended(day, counts[i]!),
    crps: fairCrps(members, observed),
  }));
}

/** Chance after a map that has not seen the day, by day and count; equal cases are fitted as one. */
function mendedOf(
  cases: readonly DatedCase[],
  counts: readonly number[],
  happened: readonly boolean[],
  of: number,
): ((day: string, count: number) => number) | null {
  const together = new Map<string, FitCase>();
  cases.forEach(({ day }, i) => {
    const key = `${day} ${counts[i]} ${happened[i]}`;
    const weight = (together.get(key)?.weight ?? 0) + 1;
    const chance = openShare(counts[i]!, of);
    together.set(key, { chance, happened: happened[i]!, weight, group: day });
  });
  const fitted = [...together.values()];
  const unseen = judgeChoice(fitted);
  if (unseen === null) return null;
  const mended = new Map(
    fitted.map(({ group, chance }, i) => [`${group} ${chance}`, unseen.chances[i]!]),
  );
  return (day, count) => mended.get(`${day} ${openShare(count, of)}`)!;
}

/** Sums over one day's cases; the scores are sums of squares. */
interface Sums {
  day: string;
  cases: number;
  events: number;
  share: number;
  shrunk: number;
  mended: number;
  crps: number;
}

function sumsByDay(rows: readonly Row[]): Sums[] {
  const byDay = new Map<string, Sums>();
  for (const { day, happened, share, shrunk, mended, crps } of rows) {
    const sums = byDay.get(day) ?? {
      day,
      cases: 0,
      events: 0,
      share: 0,
      shrunk: 0,
      mended: 0,
      crps: 0,
    };
    const outcome = happened ? 1 : 0;
    sums.cases += 1;
    sums.events += outcome;
    sums.share += (share - outcome) ** 2;
    sums.shrunk += (shrunk - outcome) ** 2;
    sums.mended += mended === null ? Number.NaN : (mended - outcome) ** 2;
    sums.crps += crps;
    byDay.set(day, sums);
  }
  return [...byDay.values()];
}

const total = (days: readonly Sums[], of: (sums: Sums) => number): number =>
  days.reduce((sum, one) => sum + of(one), 0);

function meanOver(days: readonly Sums[], of: (sums: Sums) => number): Difference {
  const mean = (drawn: readonly Sums[]): number =>
    total(drawn, of) / total(drawn, ({ cases }) => cases);
  return {
    value: mean(days),
    interval: bootstrapInterval(days, ({ day }) => day, mean, { seed: SEED, draws: DRAWS }),
  };
}

function skillInterval(days: readonly Sums[]): Interval | null {
  const skill = (drawn: readonly Sums[]): number | null => {
    const cases = total(drawn, (one) => one.cases);
    const often = total(drawn, ({ events }) => events) / cases;
    if (often === 0 || often === 1) return null;
    return brierSkill(total(drawn, ({ share }) => share) / cases, often * (1 - often));
  };
  return bootstrapInterval(days, ({ day }) => day, skill, { seed: SEED, draws: DRAWS });
}
