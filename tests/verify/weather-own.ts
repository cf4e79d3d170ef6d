import { adjustChance } from '../../src/planner/index.ts';
import { type OwnRecord, ownRecord, type PastCall } from '../../src/planner/verification/index.ts';
import type { DatedCase } from './weather-data.ts';
import type { Variable } from './weather-variables.ts';

export interface OwnRow {
  readonly place: string;
  readonly record: OwnRecord;
  /** Brier scores of the later days, shrunk as shipped and with the record's say. */
  readonly without: number;
  readonly with: number;
}

export interface Spoilt {
  readonly scale: number;
  readonly shift: number;
}

/** Share of each place's days, the first of the year, that its record is made of. */
const LEARNT = 0.6;

/**
 * Each place as a firm of its own: the record of the first part of its days, judged on the later ones.
 * @param spoilt  what is done to the chances before the record sees them: log odds times scale, plus shift
 */
export function ownRecords(
  variable: Variable,
  cases: readonly DatedCase[],
  spoilt: Spoilt,
): OwnRow[] {
  const byPlace = new Map<string, PastCall[]>();
  const ordered = [...cases].sort((a, b) => a.day.localeCompare(b.day));
  for (const one of ordered) {
    const call = callOf(variable, one, spoilt);
    byPlace.set(one.place, [...(byPlace.get(one.place) ?? []), call]);
  }
  return [...byPlace].flatMap(([place, calls]) => {
    const learnt = Math.floor(calls.length * LEARNT);
    const later = calls.slice(learnt);
    const events = calls.filter(({ outcome }) => outcome === 'finished').length;
    // Where it is never or always cold there is nothing to judge.
    if (events < 20 || calls.length - events < 20 || learnt < 120) return [];
    const record = ownRecord(calls.slice(0, learnt));
    const score = (chanceOf: (call: PastCall) => number): number =>
      later.reduce(
        (sum, call) => sum + (chanceOf(call) - (call.outcome === 'finished' ? 1 : 0)) ** 2,
        0,
      ) / later.length;
    return [
      {
        place,
        record,
        without: score(({ shrunk }) => shrunk),
        with: score(({ shrunk }) => record.adjust(shrunk)),
      },
    ];
  });
}

function callOf(variable: Variable, one: DatedCase, { scale, shift }: Spoilt): PastCall {
  const of = one.members.length;
  const k = one.members.filter(variable.happens).length;
  const leadDays = variable.leadHours / 24;
  const { adjusted } = adjustChance({ count: k, of, crossFit: k / of, leadDays });
  const odds = (adjusted! / (1 - adjusted!)) ** scale * Math.exp(shift);
  const chance = odds / (1 + odds);
  return {
    jobId: one.place,
    day: one.day,
    issuedMs: Date.parse(one.day) - leadDays * 86_400_000,
    k,
    of,
    shrunk: chance,
    shown: chance,
    outcome: variable.happens(one.observed) ? 'finished' : 'not finished',
  };
}
