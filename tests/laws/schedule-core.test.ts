import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CoreProject, solveSchedule } from '../../src/planner/core/index.ts';
import { checkSchedule } from '../fixtures/scheduling/check-schedule.ts';
import {
  bruteForce,
  crowdedProject,
  plainProject,
  projectWithMaximumLags,
} from '../fixtures/scheduling/small-projects.ts';

const TO_THE_END = { schedules: 200, nodes: Number.POSITIVE_INFINITY };

function optimumOf(project: CoreProject, seed = 1): number | null {
  const answer = solveSchedule(project, { budget: TO_THE_END, seed });
  expect(['optimal', 'infeasible']).toContain(answer.status);
  if (answer.starts !== null) {
    expect(checkSchedule(project, answer.starts, answer.makespan!)).toEqual([]);
  }
  return answer.makespan;
}

/** More capacity, or one lag left out: whatever was possible stays possible. */
function noLonger(looser: number | null, tighter: number | null): boolean {
  return tighter === null || (looser !== null && looser <= tighter);
}

describe('small random projects', () => {
  it('have the optimum that trying every start finds, without maximum lags', () => {
    fc.assert(
      fc.property(plainProject, (project) => {
        expect(optimumOf(project)).toBe(bruteForce(project));
      }),
      { numRuns: 150, seed: 11 },
    );
  });

  it('have it with maximum lags and own limits on starts, and are infeasible when no start does', () => {
    let impossible = 0;
    fc.assert(
      fc.property(projectWithMaximumLags, (project) => {
        const expected = bruteForce(project);
        if (expected === null) impossible += 1;
        expect(optimumOf(project)).toBe(expected);
      }),
      { numRuns: 300, seed: 12 },
    );
    // Else the infeasible half of the law has not been tried.
    expect(impossible).toBeGreaterThan(20);
  });

  it('have it from the complete search alone when many share one resource', () => {
    fc.assert(
      fc.property(crowdedProject, (project) => {
        // No lists: nothing covers up for a wrong dead end.
        const answer = solveSchedule(project, { budget: { ...TO_THE_END, schedules: 0 } });
        expect(answer.makespan).toBe(bruteForce(project));
        if (answer.starts === null) return;
        expect(checkSchedule(project, answer.starts, answer.makespan!)).toEqual([]);
      }),
      { numRuns: 120, seed: 20 },
    );
  });

  it('never have a bound above the optimum, nor a schedule below it, on any budget', () => {
    fc.assert(
      fc.property(projectWithMaximumLags, fc.integer({ min: 0, max: 12 }), (project, nodes) => {
        const expected = bruteForce(project) ?? Number.POSITIVE_INFINITY;
        const answer = solveSchedule(project, { budget: { schedules: 1, nodes } });
        expect(answer.lowerBound).toBeLessThanOrEqual(expected);
        if (answer.makespan === null) return;
        expect(answer.makespan).toBeGreaterThanOrEqual(expected);
        expect(checkSchedule(project, answer.starts!, answer.makespan)).toEqual([]);
      }),
      { numRuns: 200, seed: 13 },
    );
  });

  it('get the same answer for the same seed, and the same optimum for another', () => {
    fc.assert(
      fc.property(plainProject, fc.integer(), (project, seed) => {
        const options = { budget: TO_THE_END, seed };
        expect(solveSchedule(project, options)).toEqual(solveSchedule(project, options));
        expect(optimumOf(project, seed)).toBe(optimumOf(project, seed + 1));
      }),
      { numRuns: 60, seed: 14 },
    );
  });

  it('never take longer with more of a resource', () => {
    fc.assert(
      fc.property(projectWithMaximumLags, (project) => {
        const [first, ...others] = project.capacities;
        const more = { ...project, capacities: [first! + 1, ...others] };
        expect(noLonger(optimumOf(more), optimumOf(project))).toBe(true);
      }),
      { numRuns: 150, seed: 15 },
    );
  });

  it('never get shorter with one more lag', () => {
    const lag = fc.record({
      from: fc.integer({ min: 0, max: 3 }),
      to: fc.integer({ min: 0, max: 3 }),
      minLag: fc.integer({ min: -5, max: 5 }),
    });
    fc.assert(
      fc.property(projectWithMaximumLags, lag, (project, extra) => {
        fc.pre(extra.from !== extra.to);
        const tighter = { ...project, lags: [...project.lags, extra] };
        expect(noLonger(optimumOf(project), optimumOf(tighter))).toBe(true);
      }),
      { numRuns: 150, seed: 16 },
    );
  });

  it('take as long backwards as forwards', () => {
    fc.assert(
      fc.property(plainProject, (project) => {
        const { activities } = project;
        const lags = project.lags.map(({ from, to, minLag }) => ({
          from: to,
          to: from,
          minLag: minLag + activities[to]!.duration - activities[from]!.duration,
        }));
        expect(optimumOf({ ...project, lags })).toBe(optimumOf(project));
      }),
      { numRuns: 100, seed: 17 },
    );
  });

  it('take k times as long when every duration and lag does', () => {
    fc.assert(
      fc.property(plainProject, fc.integer({ min: 2, max: 5 }), (project, k) => {
        const scaled = {
          ...project,
          activities: project.activities.map((one) => ({ ...one, duration: k * one.duration })),
          lags: project.lags.map((lag) => ({ ...lag, minLag: k * lag.minLag })),
        };
        expect(optimumOf(scaled)).toBe(k * optimumOf(project)!);
      }),
      { numRuns: 100, seed: 18 },
    );
  });

  it('keep to the number of schedules and nodes allowed', () => {
    fc.assert(
      fc.property(plainProject, fc.integer({ min: 1, max: 90 }), (project, schedules) => {
        const answer = solveSchedule(project, { budget: { schedules, nodes: 0 } });
        expect(answer.schedulesMade).toBeLessThanOrEqual(schedules);
        expect(answer.nodes).toBe(0);
      }),
      { numRuns: 60, seed: 19 },
    );
  });
});
