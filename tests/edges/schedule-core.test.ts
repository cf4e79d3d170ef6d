import { describe, expect, it } from 'vitest';
import { type CoreProject, solveSchedule } from '../../src/planner/core/index.ts';
import { checkSchedule } from '../fixtures/scheduling/check-schedule.ts';

const crew = (duration: number, people: number) => ({ duration, demands: [people] });

describe('a project that makes no sense', () => {
  it('is refused with every value that is wrong', () => {
    const project: CoreProject = {
      activities: [crew(1.5, 1), { duration: 1, demands: [Number.NaN, 2] }],
      lags: [{ from: 0, to: 7, minLag: 0.5 }],
      capacities: [-1],
    };
    const refused = () => solveSchedule(project);
    expect(refused).toThrow(RangeError);
    for (const part of [
      'activities[0].duration (1.5)',
      'activities[1].demands has 2 values for 1 resources',
      'activities[1].demands[0] (NaN)',
      'lags[0].to (7)',
      'lags[0].minLag (0.5)',
      'capacities[0] (-1)',
    ]) {
      expect(refused).toThrow(part);
    }
  });
});

describe('odd projects', () => {
  it('without activities end at once', () => {
    expect(solveSchedule({ activities: [], lags: [], capacities: [2] })).toMatchObject({
      status: 'optimal',
      makespan: 0,
    });
  });

  it('that need more people than there are have no schedule', () => {
    const project = { activities: [crew(2, 3)], lags: [], capacities: [2] };
    expect(solveSchedule(project).status).toBe('infeasible');
  });

  it('that start after their last start have none either', () => {
    const late = { duration: 1, demands: [], earliestStart: 4, latestStart: 3 };
    const answer = solveSchedule({ activities: [late], lags: [], capacities: [] });
    expect(answer).toMatchObject({ status: 'infeasible', contradiction: [0] });
  });

  it('wait for an own earliest start', () => {
    const late = { duration: 2, demands: [1], earliestStart: 5 };
    const project = { activities: [late, crew(4, 1)], lags: [], capacities: [1] };
    expect(solveSchedule(project)).toMatchObject({ status: 'optimal', makespan: 7 });
  });

  it('with resources that fill more than one word are kept within each of them', () => {
    // Six resources of 2^12: two to a word.
    const capacities = new Array<number>(6).fill(4096);
    const activities = Array.from({ length: 12 }, (_, i) => ({
      duration: 1 + (i % 3),
      demands: capacities.map((_, k) => (k === i % 6 ? 4000 : 500)),
    }));
    const project = { activities, lags: [], capacities };
    const answer = solveSchedule(project, { budget: { schedules: 300, nodes: 0 } });
    expect(checkSchedule(project, answer.starts!, answer.makespan!)).toEqual([]);
    // The two of each kind cannot run together, and nothing else than a third of a capacity is left.
    expect(answer.makespan).toBeGreaterThanOrEqual(6);
  });
});

describe('a search that is cut short', () => {
  // A row of like pairs: easy to schedule, long to prove.
  const project: CoreProject = {
    activities: Array.from({ length: 24 }, (_, i) => crew(3 + (i % 5), 2 + (i % 3))),
    lags: Array.from({ length: 12 }, (_, i) => ({ from: i, to: i + 12, minLag: 4 })),
    capacities: [7],
  };

  it('gives the best so far, and a bound that is not above it', () => {
    let asked = 0;
    const answer = solveSchedule(project, {
      budget: { schedules: 1e9, nodes: 1e9 },
      shouldStop: () => {
        asked += 1;
        return asked > 20;
      },
    });
    expect(checkSchedule(project, answer.starts!, answer.makespan!)).toEqual([]);
    expect(answer.lowerBound).toBeLessThanOrEqual(answer.makespan!);
    expect(answer.schedulesMade).toBeLessThan(5000);
  });

  it('gives one schedule even when told to stop at once', () => {
    const answer = solveSchedule(project, { shouldStop: () => true });
    expect(answer.schedulesMade).toBe(1);
    expect(checkSchedule(project, answer.starts!, answer.makespan!)).toEqual([]);
  });

  it('says unknown when maximum lags leave it with nothing found', () => {
    const lags = [...project.lags, { from: 12, to: 0, minLag: -6 }];
    const answer = solveSchedule({ ...project, lags }, { shouldStop: () => true });
    expect(answer).toMatchObject({ status: 'unknown', starts: null, makespan: null });
  });

  it('looks for nothing longer than the upper bound', () => {
    const budget = { schedules: 2000, nodes: 300 };
    const best = solveSchedule(project, { budget });
    const { lowerBound, makespan } = best;
    expect(solveSchedule(project, { budget, upperBound: lowerBound - 1 }).status).toBe(
      'infeasible',
    );
    expect(solveSchedule(project, { budget, upperBound: makespan! }).makespan).toBe(makespan);
  });
});
