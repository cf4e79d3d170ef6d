/** What must hold of the columns of broken rules that runs look up. */
import { describe, expect, it } from 'vitest';
import { RULE_BIT } from '../../src/planner/masks.ts';
import type { RuleView } from '../../src/planner/rules/index.ts';
import { stepAt } from '../../src/weather/index.ts';
import { planOn } from '../fixtures/planner/job.ts';
import { breaks } from '../fixtures/planner/rule-view.ts';

/** Showers, gusts, damp and frost, other in each of four forecasts; the last ends early. */
const plan = planOn({
  job: 'parish-room',
  weather: {
    members: 4,
    hours: 60,
    // An hour of frost next morning: who lays before the same hour today has a cold night to come.
    airTempC: (h, m) => {
      if (m === 3 && h > 30) return Number.NaN;
      return h === 34 + m ? -2 : 14 + m + 5 * Math.sin(((h - 9) * Math.PI) / 12);
    },
    dewPointC: (h, m) => 3 + ((h + m) % 7),
    windMps: (h, m) => 4 + ((h * 3 + m) % 8),
    gustMps: (h, m) => 7 + ((h * 5 + m) % 10),
    rainMm: (h, m) => ((h + 2 * m) % 9 === 0 ? 0.4 : 0),
  },
});
const { prepared } = plan;
const { grid, limits, job } = prepared;
const coatings = plan.steps.filter(({ activity }) => activity.coats !== undefined);

describe('the rules broken at a step', () => {
  it('are those that each rule finds asked of that step alone, and in the dark darkness alone', () => {
    const seen = new Set<string>();
    const masks = new Map(coatings.map((step) => [step.mask, step]));
    for (const [mask, { activity }] of masks) {
      const kind = activity.coats!.surfaces[0]!;
      const freshlyOpened = kind !== 'deck' || job.buildUp.strip;
      const view: RuleView = { grid, surface: prepared.surface(kind), limits, freshlyOpened };
      const daylight = mask.rules.find(({ id }) => id === 'daylight')!;
      for (let step = stepAt(grid, prepared.nowMs); step < grid.steps; step += 7) {
        for (let m = 0; m < grid.memberCount; m += 1) {
          const asked = breaks(daylight, view, m, step) ? [daylight] : mask.rules;
          const broken = asked.filter((rule) => breaks(rule, view, m, step)).map(({ id }) => id);
          for (const id of broken) seen.add(id);
          const bits = broken.reduce((sum, id) => sum | RULE_BIT[id], 0);
          expect(mask.broken[m * grid.steps + step], `${activity.id}, ${m}, ${step}`).toBe(bits);
        }
      }
    }
    // Weather in which nothing breaks would show nothing.
    expect(masks.size).toBeGreaterThan(1);
    expect([...seen]).toEqual(
      expect.arrayContaining(['rain', 'sheet-wind', 'roof-wind', 'daylight', 'cold-night']),
    );
    expect([...seen]).toEqual(expect.arrayContaining(['deck-dry', 'dew-margin', 'air-temp']));
  });

  it('are none of the past, and none past the end of a forecast', () => {
    const now = stepAt(grid, prepared.nowMs);
    expect(grid.knownSteps[3]).toBeLessThan(grid.steps);
    for (const { mask } of coatings) {
      for (let m = 0; m < grid.memberCount; m += 1) {
        const column = mask.broken.subarray(m * grid.steps, (m + 1) * grid.steps);
        expect(column.subarray(0, now).every((bits) => bits === 0)).toBe(true);
        expect(column.subarray(grid.knownSteps[m]).every((bits) => bits === 0)).toBe(true);
      }
    }
  });
});
