import highs from 'highs';
import {
  type Assigned,
  assign,
  type Booking,
  type ProgrammeAsk,
  replan,
  solveWithHighs,
} from '../../src/programme/index.ts';
import { randomAsk } from '../fixtures/programme/random-ask.ts';

/** Invented work for 15 crews over a fortnight: 300 roofs of 1 to 5 days and 20 days of yard work. */
const SIZE = { jobs: 300, crews: 15, days: 14, fillers: 20, longest: 5 };

export const largeAsk = (seed: number): ProgrammeAsk => randomAsk(SIZE, seed);

export const firstPlan = (ask: ProgrammeAsk): Assigned => assign(ask, { seed: 1 });

/** The first roof of the plan turns wet for five days after the first two. */
export function afterOneUpdate(ask: ProgrammeAsk, plan: Assigned): () => number {
  const current = plan.visits.map(
    ({ jobId, crewId, dates }): Booking => ({
      jobId,
      crewId,
      dates,
      confirmed: true,
      resources: [],
    }),
  );
  const hit = plan.visits.find((visit) => !visit.filler && visit.dates[0]! > ask.days[2]!)!;
  const jobs = ask.jobs.map((job) =>
    job.id !== hit.jobId
      ? job
      : {
          ...job,
          work: job.work.map((work) => ({
            ...work,
            days: work.days.map((day, d) =>
              d < 2 || d > 7
                ? day
                : { ...day, verdict: 'no' as const, chance: 0.1, expectedCost: 400 },
            ),
          })),
        },
  );
  const options = { freezeDays: 2, nowMs: 0, seed: 1, before: ask };
  return () => replan({ ...ask, jobs }, current, options).moves.length;
}

/** Gap and time at stated budgets, over six questions, without and with the exact solver. */
export async function gapTable(): Promise<string> {
  // The package's types say CommonJS, so the loader looks like a member of what is in fact the loader.
  const load = highs as unknown as typeof highs.default;
  const solve = solveWithHighs(await load());
  const asks = [1, 2, 3, 4, 5, 6].map(largeAsk);
  const rows = [0, 1000, 4000, 16000].flatMap((iterations) =>
    [null, solve].map((solver) => {
      const runs = asks.map((ask) => {
        const from = performance.now();
        const { search } = assign(ask, {
          seed: 1,
          budget: { iterations },
          ...(solver === null ? {} : { solve: solver }),
        });
        return { ms: performance.now() - from, search };
      });
      const shares = runs.map(({ search }) => 100 * search.gapShare);
      const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
      const slowest = Math.max(...runs.map(({ ms }) => ms));
      const proven = runs.filter(({ search }) => search.proven).length;
      return [
        String(iterations).padStart(10),
        (solver === null ? 'no' : 'yes').padStart(6),
        `${mean.toFixed(3)} %`.padStart(9),
        `${Math.max(...shares).toFixed(3)} %`.padStart(9),
        `${proven} of 6`.padStart(8),
        `${slowest.toFixed(0)} ms`.padStart(9),
      ].join('  ');
    }),
  );
  return ['iterations  solver  mean gap      worst    proven    slowest', ...rows].join('\n');
}
