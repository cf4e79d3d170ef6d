import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CoreProject, solveSchedule } from '../../src/planner/core/index.ts';
import { checkSchedule } from '../fixtures/scheduling/check-schedule.ts';
import { tryAllStarts, windowedProject } from '../fixtures/scheduling/windowed-projects.ts';

/** Forbidden starts and lags that depend on the start, against every start of every activity. */

const TO_THE_END = { budget: { nodes: Number.POSITIVE_INFINITY } };

describe('small projects with forbidden starts and shifting lags', () => {
  it('have the optimum that trying every start finds, and are infeasible when no start does', () => {
    let impossible = 0;
    let unlike = 0;
    fc.assert(
      fc.property(windowedProject, (project) => {
        const expected = tryAllStarts(project);
        if (expected === null) impossible += 1;
        const { windows: _, ...fixed } = project;
        if (expected !== tryAllStarts(fixed)) unlike += 1;
        const answer = solveSchedule(project, TO_THE_END);
        expect(answer.status).toBe(expected === null ? 'infeasible' : 'optimal');
        expect(answer.makespan).toBe(expected);
        if (answer.starts !== null)
          expect(checkSchedule(project, answer.starts, expected!)).toEqual([]);
      }),
      { numRuns: 400, seed: 31 },
    );
    // Else the windows were not seen to bind, or never too much.
    expect(impossible).toBeGreaterThan(40);
    expect(unlike).toBeGreaterThan(100);
  });

  it('are as before where every window is a fixed lag', () => {
    const lags = [
      { from: 0, to: 1, minLag: 4 },
      { from: 1, to: 0, minLag: -6 },
    ];
    const activities = [0, 1, 2, 3].map((n) => ({ duration: 2 + n, demands: [1] }));
    const fixed: CoreProject = { activities, lags, capacities: [1] };
    const shifting: CoreProject = {
      activities,
      lags: [],
      windows: [
        {
          from: 0,
          to: 1,
          earliest: Array.from({ length: 30 }, (_, s) => s + 4),
          latest: Array.from({ length: 30 }, (_, s) => s + 6),
        },
      ],
      capacities: [1],
    };
    const best = solveSchedule(fixed, TO_THE_END).makespan;
    expect(solveSchedule(shifting, TO_THE_END)).toMatchObject({
      status: 'optimal',
      makespan: best,
    });
  });

  it('never end later when one more start is allowed', () => {
    fc.assert(
      fc.property(windowedProject, fc.integer({ min: 0, max: 9 }), (project, extra) => {
        const wider = {
          ...project,
          activities: project.activities.map((one) =>
            one.allowedStarts === undefined
              ? one
              : {
                  ...one,
                  allowedStarts: [...new Set([...one.allowedStarts, extra])].sort((a, b) => a - b),
                },
          ),
        };
        const tight = solveSchedule(project, TO_THE_END).makespan;
        const loose = solveSchedule(wider, TO_THE_END).makespan;
        if (tight !== null) expect(loose).toBeLessThanOrEqual(tight);
      }),
      { numRuns: 150, seed: 32 },
    );
  });
});

describe('a project out of form', () => {
  const activities = [
    { duration: 1, demands: [], allowedStarts: [3, 2] },
    { duration: 1, demands: [] },
  ];

  it('is refused with every starts list and window that is wrong, by name and value', () => {
    const windows = [
      { from: 0, to: 2, earliest: [1, 2.5], latest: [4] },
      { from: 1, to: 1, earliest: [1], latest: [2] },
    ];
    expect(() => solveSchedule({ activities, lags: [], windows, capacities: [] })).toThrow(
      /allowedStarts\[1\] \(2\).*windows\[0\]\.to \(2\).*windows\[0\]\.latest has 1 values for 2.*windows\[0\]\.earliest\[1\] \(2\.5\).*windows\[1\] ties activity 1 to itself/,
    );
  });

  it('that may never start one of its activities is infeasible, and says which', () => {
    const never = [activities[1]!, { ...activities[1]!, allowedStarts: [] }];
    const answer = solveSchedule({ activities: never, lags: [], capacities: [] });
    expect(answer).toMatchObject({ status: 'infeasible', contradiction: [1] });
  });
});
