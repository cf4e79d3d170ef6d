import { expect, it } from 'vitest';
import { nightAfter } from '../../src/planner/cold-after.ts';
import { planOn } from '../fixtures/planner/job.ts';
import { HOUR_MS } from '../fixtures/planner/weather.ts';

/**
 * A film coated at the very moment the forecasts end has a night nobody knows. The forecast listed after
 * it begins with a warm night or a cold one, which is not its own.
 */
const DAY_H = 44;
const coldAtStart = (h: number): number => (h < 4 ? -6 : 14);

it('the night after the last moment of a forecast is unknown, whatever the next forecast begins with', () => {
  for (const [next, airTempC] of [
    ['warm', () => 14],
    ['cold', coldAtStart],
  ] as const) {
    // Its adhesive is water-borne and minds a cold night.
    const plan = planOn({
      job: 'boat-store',
      weather: { hours: DAY_H, members: 2, airTempC: (h, m) => (m === 0 ? 14 : airTempC(h)) },
    });
    const { grid } = plan.prepared;
    const coats = plan.steps.flatMap(({ mask, film, activity }, n) =>
      film !== null && mask.turnsCold !== null && activity.rules.includes('cold-night') ? [n] : [],
    );
    expect(coats.length, 'films that mind a cold night').toBeGreaterThan(0);
    const endMs = grid.startMs + grid.steps * grid.stepMs;
    expect(endMs).toBe(grid.startMs + DAY_H * HOUR_MS);
    const doneMs = new Float64Array(plan.steps.length).fill(Number.NaN);
    doneMs[coats[0]!] = endMs;
    expect(nightAfter(plan, 0, doneMs), `next begins ${next}`).toEqual({
      kind: 'unknown',
      coatedMs: endMs,
    });
  }
});
