import { describe, expect, it } from 'vitest';
import { daylight } from '../../src/planner/rules/index.ts';
import { preparedFor } from '../fixtures/planner/job.ts';
import { breaks, momentView } from '../fixtures/planner/rule-view.ts';

// Rise and set are the moments at which the sun's centre stands at zenith 90.833 degrees (NOAA
// solar calculation details).
const dark = (sunElevationDeg: number) => breaks(daylight, momentView({ sunElevationDeg }));

describe('the rule for daylight', () => {
  it('is met with the sun up, and while its upper rim is: -0.83 degrees', () => {
    expect(dark(5)).toBe(false);
    expect(dark(-0.83)).toBe(false);
  });

  it('is broken from -0.84 degrees down', () => {
    expect(dark(-0.84)).toBe(true);
    expect(dark(-12)).toBe(true);
  });

  it('is a safety rule', () => {
    expect(daylight.whose).toBe('safety');
  });

  it('turns at sunrise and sunset, to within the five minutes of a step', () => {
    // Greenwich, 21 June 2026: 04:43 and 21:22 British Summer Time (almanac, from memory to 1 min).
    const { grid } = preparedFor({
      changes: { site: { latitudeDeg: 51.478, longitudeDeg: 0 } },
      weather: { start: '2026-06-21T00:00:00Z', hours: 24 },
    });
    const isLit = Array.from(grid.sunElevationDeg, (_, i) => !breaks(daylight, view(grid), 0, i));
    const minuteOf = (step: number) => step * 5;
    expect(Math.abs(minuteOf(isLit.indexOf(true)) - (3 * 60 + 43))).toBeLessThanOrEqual(5);
    expect(Math.abs(minuteOf(isLit.lastIndexOf(true) + 1) - (20 * 60 + 22))).toBeLessThanOrEqual(5);
  });
});

const view = (grid: ReturnType<typeof preparedFor>['grid']) => ({ ...momentView({}), grid });
