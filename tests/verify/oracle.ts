import {
  compareDay,
  type Dispatched,
  dispatchDay,
  type ListOrder,
  spreadOf,
} from '../fixtures/scheduling/known-days.ts';
import { movedListsGain } from '../fixtures/scheduling/moved-lists.ts';
import { type PolicyGap, policyGap } from '../fixtures/scheduling/policies.ts';
import { loadSolver } from '../fixtures/scheduling/time-indexed.ts';

/** Small days of work against a general solver, the dispatch rule against the best day, the search against every policy. */

const DAYS = 200;
const POLICIES = 50;
const DEMO_DAYS = 12;
const MOVED_LISTS = 40;
const LISTS: readonly ListOrder[] = ['as drawn', 'rain-safe first'];

type Say = (line: string) => void;
type Keep = (words: string, kept: boolean) => void;

export async function verifyDays(say: Say, promise: Keep): Promise<void> {
  say('\nOrder of work: small days of work against a general solver (HiGHS)');
  await coreAgainstProgram(say, promise);
  dispatchAgainstCore(say, promise);
  searchAgainstPolicies(say, promise);
  const gains = seeds(DEMO_DAYS).map((seed) => 100 * movedListsGain(seed, MOVED_LISTS));
  const { mean, median, worst } = spreadOf(gains);
  say(
    `\n  a demo job's own list against ${MOVED_LISTS} with up to three tasks moved, ${DEMO_DAYS} days in 4 futures: the best is cheaper by ${mean.toFixed(1)} % of a day stood down in the mean, ${median.toFixed(1)} % median, ${worst.toFixed(1)} % at most`,
  );
}

const seeds = (count: number): number[] => Array.from({ length: count }, (_, n) => n + 1);

async function coreAgainstProgram(say: Say, promise: Keep): Promise<void> {
  const solve = await loadSolver();
  for (const edges of ['inside', 'outside'] as const) {
    const compared = seeds(DAYS).map((seed) => ({ seed, ...compareDay(solve, seed, edges) }));
    const unlike = compared.filter(({ core, program }) => core !== program);
    const none = compared.filter(({ program }) => program === 'infeasible').length;
    promise(
      `${DAYS} days of 5 to 9 tasks, times ${edges} the grid: the core's best day is the solver's, with none in ${none}`,
      unlike.length === 0,
    );
    for (const { seed, core, program } of unlike)
      say(`  day ${seed}: core ${core}, solver ${program}`);
  }
}

function dispatchAgainstCore(say: Say, promise: Keep): void {
  const faults: string[] = [];
  say('\n| list | could be finished | finished | as good as the best | mean | median | worst |');
  say('|---|--:|--:|--:|--:|--:|--:|');
  const missed: string[] = [];
  for (const list of LISTS) {
    const days = seeds(DAYS).map((seed) => dispatchDay(seed, list));
    faults.push(...days.flatMap((day) => day.faults));
    const possible = days.filter((day) => day.possible);
    // Off the grid a run can be a few minutes before the best day on it: that counts as no gap.
    const late = possible.flatMap(({ lateMin }) =>
      lateMin === null ? [] : [Math.max(0, lateMin)],
    );
    const best = late.filter((min) => min === 0).length;
    const { mean, median, worst } = spreadOf(late);
    say(
      `| ${list} | ${possible.length} | ${late.length} | ${share(best, late.length)} | ${mean.toFixed(1)} min | ${median.toFixed(1)} min | ${worst.toFixed(0)} min |`,
    );
    missed.push(`${list}: ${causes(possible.filter(({ finished }) => !finished))}`);
    const most = days.flatMap(({ mostLateMin }) => (mostLateMin === null ? [] : [mostLateMin]));
    const bound = spreadOf(most);
    missed.push(
      `${list}: behind what no day at all can beat, at most ${bound.mean.toFixed(1)} min in the mean, ${bound.median.toFixed(1)} median, ${bound.worst.toFixed(0)} worst, over ${most.length} days`,
    );
  }
  say('');
  for (const line of missed) say(`  ${line}`);
  promise(
    'the dispatch rule keeps to the rules of the work and is never better than the best day',
    faults.length === 0,
  );
  for (const fault of faults.slice(0, 10)) say(`  ${fault}`);
}

function causes(days: readonly Dispatched[]): string {
  const counts = new Map<string, number>();
  for (const { cause } of days) counts.set(cause ?? '', (counts.get(cause ?? '') ?? 0) + 1);
  const words = [...counts].map(([cause, count]) => `${cause} ${count}`);
  return `not finished though a day was there: ${words.length === 0 ? 'none' : words.join(', ')}`;
}

function searchAgainstPolicies(say: Say, promise: Keep): void {
  const gaps = seeds(POLICIES).map(policyGap);
  promise(
    `${POLICIES} days of 3 to 5 tasks in 4 futures: the start searched is the earliest that costs hardly more than the cheapest of all`,
    gaps.every(({ asStated }) => asStated),
  );
  say('\n| searched | policies | best found | mean gap | median | worst |');
  say('|---|--:|--:|--:|--:|--:|');
  gapLine(say, 'start, for the list as it stands', gaps, ({ cheapestStart }) => cheapestStart);
  gapLine(say, 'start, against every order too', gaps, ({ cheapestPolicy }) => cheapestPolicy);
}

function gapLine(
  say: Say,
  words: string,
  gaps: readonly PolicyGap[],
  best: (gap: PolicyGap) => number,
): void {
  const shares = gaps.map((gap) => (100 * (gap.searched - best(gap))) / gap.standDown);
  const { mean, median, worst } = spreadOf(shares);
  const tried = gaps.reduce((sum, { orders, starts }) => sum + orders * starts, 0);
  const reached = shares.filter((gap) => gap < 1e-6).length;
  say(
    `| ${words} | ${tried} | ${share(reached, shares.length)} | ${mean.toFixed(1)} % | ${median.toFixed(1)} % | ${worst.toFixed(1)} % |`,
  );
}

const share = (count: number, of: number): string => `${count} of ${of}`;
