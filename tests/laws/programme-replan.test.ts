import { describe, expect, it } from 'vitest';
import {
  agreeMoves,
  assign,
  type Booking,
  type DayValue,
  type JobAsk,
  type ProgrammeAsk,
  type Replanned,
  replan,
  STARTER_MOVE_PRICES,
  undoMoves,
} from '../../src/programme/index.ts';
import { seededRandom } from '../../src/units/index.ts';
import {
  bestOfAll,
  brokenRules,
  crewWorks,
  everyPlacement,
  leftOutByHand,
  movePriceByHand,
  worthByHand,
} from '../fixtures/programme/by-hand.ts';
import { randomAsk } from '../fixtures/programme/random-ask.ts';

/**
 * Re-planning after a new forecast against every choice gone through, with worth and prices of moves
 * reckoned once more by tests/fixtures/programme/by-hand.ts; and what holds for every re-plan.
 */

const SMALL = { jobs: 5, crews: 2, days: 6, fillers: 0, longest: 2 };
const LARGER = { jobs: 30, crews: 4, days: 10, fillers: 4, longest: 4 };
const NOW_MS = Date.parse('2027-04-05T05:00:00Z');
const budget = { iterations: 150, boundSteps: 150 };
const seeds = (count: number): number[] => Array.from({ length: count }, (_, n) => n + 1);

/** A plan as booked: some of it confirmed, some with a skip whose last moment may be past. */
function bookedPlan(ask: ProgrammeAsk, seed: number): Booking[] {
  const random = seededRandom(seed);
  return assign(ask, { seed, budget }).visits.map(({ jobId, crewId, dates }) => ({
    jobId,
    crewId,
    dates,
    confirmed: random() < 0.6,
    resources:
      random() < 0.4
        ? [
            {
              name: 'skip',
              supplier: 'Skips',
              dates: [dates[0]!],
              cancelByMs: NOW_MS + (random() < 0.5 ? 1 : -1) * 3_600_000,
              charge: 60,
            },
          ]
        : [],
  }));
}

/** The same question under another forecast: some days turn, a few of them by a hard stop. */
function nextForecast(ask: ProgrammeAsk, seed: number, hard: boolean): ProgrammeAsk {
  const random = seededRandom(1000 + seed);
  const turn = (day: DayValue): DayValue => {
    if (random() > 0.3) return day;
    const chance = Math.round(random() * 100) / 100;
    const verdict = chance < 0.35 ? 'no' : chance < 0.7 ? 'doubtful' : 'go';
    const hardStop = hard && verdict === 'no' && random() < 0.5 ? 'deck too cold' : null;
    return { ...day, chance, verdict, hardStop, expectedCost: 450 * (1 - chance), reason: 'rain' };
  };
  return {
    ...ask,
    jobs: ask.jobs.map((job) => ({
      ...job,
      work: job.work.map((work) => ({ ...work, days: work.days.map(turn) })),
    })),
  };
}

function agreed(current: readonly Booking[], found: Replanned): readonly Booking[] {
  const all = agreeMoves(
    current,
    found.moves,
    found.moves.map((move) => move.jobId),
  );
  if (!all.ok) throw new Error(all.problems.join(' '));
  expect(undoMoves(all.bookings, all.undo)).toEqual({ ok: true, bookings: current });
  return all.bookings;
}

const priceOf = (job: JobAsk, from: Booking | null, to: Booking | null): number =>
  to !== null && from !== null && to.dates.join() === from.dates.join() && to.crewId === from.crewId
    ? 0
    : movePriceByHand(job, from, to, STARTER_MOVE_PRICES, NOW_MS);

describe('small plans under a new forecast, every choice gone through', () => {
  it('all moves together are worth the most that any set of moves is, prices taken off', () => {
    let moved = 0;
    let same = 0;
    for (const seed of seeds(100)) {
      const before = randomAsk(SMALL, seed);
      const current = bookedPlan(before, seed);
      const ask = nextForecast(before, seed, true);
      const found = replan(ask, current, { freezeDays: 0, nowMs: NOW_MS, seed, budget });
      const after = agreed(current, found);
      const bookedBefore = (job: JobAsk) => current.find((it) => it.jobId === job.id) ?? null;
      const ways = ask.jobs.map((job) => ({
        without: leftOutByHand(ask, job) - priceOf(job, bookedBefore(job), null),
        placements: everyPlacement(ask, job).map((it) => ({
          ...it,
          worth:
            it.worth - priceOf(job, bookedBefore(job), { ...it, confirmed: false, resources: [] }),
        })),
      }));
      let value = 0;
      for (const job of ask.jobs) {
        const to = after.find((it) => it.jobId === job.id) ?? null;
        if (to !== null) expect(brokenRules(ask, job, to), `seed ${seed}`).toEqual([]);
        const worth = to === null ? leftOutByHand(ask, job) : worthByHand(ask, job, to);
        value += worth - priceOf(job, bookedBefore(job), to);
      }
      const best = bestOfAll(ways);
      expect(value, `seed ${seed}`).toBeLessThan(best + 1e-3);
      expect(found.search.bound, `seed ${seed}`).toBeGreaterThan(best - 1e-3);
      if (Math.abs(value - best) < 1e-3) same += 1;
      moved += found.moves.length;
    }
    expect(moved).toBeGreaterThan(80);
    expect(same).toBeGreaterThanOrEqual(99);
  });
});

describe('a question that has not changed', () => {
  it('proposes no move, also where the plan was not the best there is', () => {
    for (const seed of seeds(5)) {
      const ask = randomAsk(LARGER, seed);
      const current = bookedPlan(ask, seed).slice(2);
      const options = { freezeDays: 3, nowMs: NOW_MS, seed: 9, budget };
      expect(replan(ask, current, { ...options, before: ask }).moves).toEqual([]);
    }
  });

  it('proposes none either where the plan is proven best and moving costs nothing less than staying', () => {
    for (const seed of seeds(20)) {
      const ask = randomAsk(SMALL, seed);
      const plan = assign(ask, { seed, budget });
      const current = bookedPlan(ask, seed);
      if (!plan.search.proven) continue;
      expect(replan(ask, current, { freezeDays: 0, nowMs: NOW_MS, seed, budget }).moves).toEqual(
        [],
      );
    }
  });
});

describe('every re-plan', () => {
  const cases = seeds(8).map((seed) => {
    const before = randomAsk(LARGER, seed);
    const current = bookedPlan(before, seed);
    const ask = nextForecast(before, seed, seed % 2 === 0);
    const options = { freezeDays: 4, nowMs: NOW_MS, seed: 3, budget, before };
    return { ask, current, options, found: replan(ask, current, options) };
  });

  it('has moves to show', () => {
    expect(cases.reduce((sum, { found }) => sum + found.moves.length, 0)).toBeGreaterThan(30);
  });

  it('leaves confirmed bookings of the freeze period where they are, unless a hard rule is against it', () => {
    let frozen = 0;
    for (const { ask, current, found } of cases) {
      for (const it of current) {
        if (!it.confirmed || it.dates[0]! >= ask.days[4]!) continue;
        frozen += 1;
        const move = found.moves.find((other) => other.jobId === it.jobId);
        if (move !== undefined) expect(move.hardStop).toBe(true);
      }
    }
    expect(frozen).toBeGreaterThan(20);
  });

  it('is the same for the same seed, and settled: asked again after agreeing, it proposes nothing new', () => {
    for (const { ask, current, options, found } of cases.slice(0, 3)) {
      expect(replan(ask, current, options)).toEqual(found);
      const after = agreed(current, found);
      expect(replan(ask, after, { ...options, before: ask }).moves).toEqual([]);
    }
  });

  it('has groups that can each be agreed alone, whose parts cannot be without what they need', () => {
    let parts = 0;
    for (const { current, found } of cases) {
      for (const { jobIds } of found.groups) {
        expect(agreeMoves(current, found.moves, jobIds).ok).toBe(true);
        for (const move of found.moves.filter((it) => jobIds.includes(it.jobId))) {
          for (const need of move.needs) {
            parts += 1;
            expect(jobIds).toContain(need);
            expect(
              agreeMoves(
                current,
                found.moves,
                jobIds.filter((id) => id !== need),
              ).ok,
            ).toBe(false);
          }
        }
      }
    }
    expect(parts).toBeGreaterThan(3);
  });

  it('gains in every group that nothing forces', () => {
    for (const { found } of cases)
      for (const { jobIds, gain } of found.groups)
        if (!found.moves.some((move) => jobIds.includes(move.jobId) && move.forced))
          expect(gain).toBeGreaterThan(0);
  });

  it('never has a crew on two roofs or at work on its day off', () => {
    for (const { ask, current, found } of cases) {
      const after = agreed(current, found);
      const taken = new Set<string>();
      for (const { crewId, dates } of after) {
        const crew = ask.crews.find((it) => it.id === crewId)!;
        for (const date of dates) {
          expect(taken.has(`${crewId} ${date}`)).toBe(false);
          taken.add(`${crewId} ${date}`);
          expect(crewWorks(ask, crew, date)).toBe(true);
        }
      }
    }
  });
});
