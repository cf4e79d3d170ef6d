import { describe, expect, it } from 'vitest';
import { BayRuns } from '../../src/planner/explain/bay-runs.ts';
import { bestStart, type DayOption, type DayPlan, planFor } from '../../src/planner/index.ts';
import { type LocalDay, localDayOn } from '../../src/time/index.ts';
import { preparedFor } from '../fixtures/planner/job.ts';

/** Which bay's list is run on which day, when the whole of a roof is laid bay after bay. */

/** The workshop in five bays, of which the second and the fourth are alike. */
const workshop = preparedFor({
  job: 'seed-workshop',
  weather: { members: 1, hours: 48 },
}).variant({ bayAreaM2: 20 });
const BAYS = [0, 1, 2, 3, 4];
const [WEDNESDAY, THURSDAY] = ['2026-05-13', '2026-05-14'].map((date) =>
  localDayOn(date, workshop.job.site.timeZone),
) as [LocalDay, LocalDay];

/** By the plainest reading: the roof with the bays before this one laid, planned on that day. */
const plainly = (bay: number, day: LocalDay): DayPlan =>
  planFor({ ...workshop, job: { ...workshop.job, baysDone: bay } }, day);
const listOf = ({ steps }: DayPlan) =>
  steps.map(({ activity, durationMs }) => `${activity.id} ${Math.round(durationMs)}`);
const lookedAt = (bay: number, day: LocalDay): DayOption => {
  const plan = plainly(bay, day);
  return bestStart(plan, [plan.shift.startMs]);
};

describe('a bay of a roof on a day that was looked at for another bay', () => {
  it('is laid by its own list, whichever bay was looked at and whichever is asked about first', () => {
    const lists = BAYS.map((bay) => listOf(plainly(bay, WEDNESDAY)));
    expect(new Set(lists.map((list) => list.join())).size).toBe(4);
    expect(lists[1]).toEqual(lists[3]);
    for (const looked of [0, 1, 2]) {
      const option = lookedAt(looked, WEDNESDAY);
      for (const order of [BAYS, BAYS.toReversed()]) {
        const runs = new BayRuns(workshop);
        expect(runs.bays.length).toBe(5);
        for (const bay of order)
          expect(listOf(runs.on(bay, option)!.plan), `bay ${bay}, looked at ${looked}`).toEqual(
            lists[bay],
          );
      }
    }
  });

  it('is laid as found where it is the one looked at, or one alike', () => {
    const runs = new BayRuns(workshop);
    const option = lookedAt(1, WEDNESDAY);
    expect(runs.on(1, option)).toBe(option);
    expect(runs.on(3, option)).toBe(option);
    for (const bay of [0, 2, 4]) expect(runs.on(bay, option)).not.toBe(option);
    expect(runs.on(1, { ...option, startMs: null })).toBeNull();
  });

  it('is worked out once for a day and all bays alike, and anew for another day', () => {
    const runs = new BayRuns(workshop);
    const [wednesday, thursday] = [lookedAt(0, WEDNESDAY), lookedAt(0, THURSDAY)];
    const found = runs.on(1, wednesday)!;
    expect(runs.on(3, wednesday)).toBe(found);
    expect(runs.on(1, thursday)!.day.date).toBe(THURSDAY.date);
    expect(runs.on(1, wednesday)!.day.date).toBe(WEDNESDAY.date);
  });
});
