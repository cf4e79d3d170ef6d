import { describe, expect, it } from 'vitest';
import { deckDry } from '../../src/planner/rules/index.ts';
import { breaks, type Moment, momentView } from '../fixtures/planner/rule-view.ts';
import { runLacking } from '../fixtures/planner/unknown.ts';

// A tissue shows 0.01 mm; a panel counts as damp from 0.2 mm soaked in (both common practice).
const broken = (now: Moment) => breaks(deckDry, momentView(now));

describe('the rule for a dry deck', () => {
  it('is met on a dry face above the dew point', () => {
    expect(broken({})).toBe(false);
  });

  it('is broken at 0.011 mm of water and met at 0.009 mm', () => {
    expect(broken({ filmMm: 0.011 })).toBe(true);
    expect(broken({ filmMm: 0.009 })).toBe(false);
  });

  it('is met exactly at what a tissue does not show, 0.01 mm', () => {
    expect(broken({ filmMm: 0.01 })).toBe(false);
  });

  it('is broken at 0.21 mm soaked in and met at 0.19 mm', () => {
    expect(broken({ soakedMm: 0.21 })).toBe(true);
    expect(broken({ soakedMm: 0.19 })).toBe(false);
  });

  it('is broken exactly at the dew point: dew is water', () => {
    expect(broken({ dewMarginK: 0 })).toBe(true);
    expect(broken({ dewMarginK: -0.5 })).toBe(true);
    expect(broken({ dewMarginK: 0.1 })).toBe(false);
  });

  it('does not hold old rain against a face just uncovered, but does hold dew', () => {
    expect(broken({ freshlyOpened: true, filmMm: 0.3, soakedMm: 0.9 })).toBe(false);
    expect(broken({ freshlyOpened: true, dewMarginK: 0 })).toBe(true);
  });

  it('leaves a day unknown when humidity is missing from nine on', () => {
    expect(runLacking('dewPointC')).toMatchObject({ kind: 'unknown', cause: 'forecast-ends' });
  });
});
