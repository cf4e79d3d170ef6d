import { describe, expect, it } from 'vitest';
import { rain } from '../../src/planner/rules/index.ts';
import { breaks, momentView } from '../fixtures/planner/rule-view.ts';
import { runLacking } from '../fixtures/planner/unknown.ts';

// Limit 0.05 mm/h: half of the least that weather services print as rain, 0.1 mm (common practice).
const broken = (rainMmPerHour: number) => breaks(rain, momentView({ rainMmPerHour }));

describe('the rule against rain', () => {
  it('is met at 0 and at 0.045 mm/h', () => {
    expect(broken(0)).toBe(false);
    expect(broken(0.045)).toBe(false);
  });

  it('is broken at 0.1 mm/h, and at what feeds make of 0.1 mm in 3 h: 0.03 an hour, 0.09 in one', () => {
    expect(broken(0.1)).toBe(true);
    expect(broken(0.09)).toBe(true);
  });

  it('is broken exactly on the limit, 0.05 mm/h', () => {
    expect(broken(0.05001)).toBe(true);
    // 0.75 mm/h is a whole number of the grid's smallest parts, so no rounding helps it over.
    const now = momentView({ rainMmPerHour: 0.75, limits: { rainMmPerHour: 0.75 } });
    expect(breaks(rain, now)).toBe(true);
  });

  it('cannot be traded away as a limit of the firm', () => {
    expect(rain.whose).toBe('visible moisture');
  });

  it('leaves a day unknown when rain is missing from nine on, though it finishes with it', () => {
    expect(runLacking(null).kind).toBe('finished');
    expect(runLacking('rainMm')).toMatchObject({ kind: 'unknown', cause: 'forecast-ends' });
  });
});
