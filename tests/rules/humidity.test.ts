import { describe, expect, it } from 'vitest';
import { STARTER_LIMITS } from '../../src/planner/index.ts';
import { humidity } from '../../src/planner/rules/index.ts';
import { breaks, momentView, practice, productWith, sheet } from '../fixtures/planner/rule-view.ts';

const rule = (limits: Parameters<typeof productWith>[0]) =>
  humidity(productWith(limits), STARTER_LIMITS);
const broken = (limitPct: number, airTempC: number, dewPointC: number) =>
  breaks(rule({ relHumMaxPct: sheet(limitPct) })!, momentView({ airTempC, dewPointC }));

describe('humidity', () => {
  // Dew point of air at 20 °C: 18.3 °C at 90 %, 17.4 °C at 85 %, 19.2 °C at 95 % (psychrometric
  // tables, from memory to 0.1 K, which is 0.6 %).
  it('is met at 85 % and broken at 95 % where 90 % is the most', () => {
    expect(broken(90, 20, 17.4)).toBe(false);
    expect(broken(90, 20, 19.2)).toBe(true);
  });

  it('turns at the table’s dew point for 90 %, to 0.1 K either side', () => {
    expect(broken(90, 20, 18.2)).toBe(false);
    expect(broken(90, 20, 18.4)).toBe(true);
  });

  it('is met exactly on the limit: saturated air where 100 % is allowed', () => {
    expect(broken(100, 12, 12)).toBe(false);
    expect(broken(100, 12, 12.1)).toBe(true);
  });

  it('is no rule for a product that asks for nothing', () => {
    expect(rule({})).toBeNull();
  });

  it('says whose it is', () => {
    expect(rule({ relHumMaxPct: sheet(90) })?.whose).toBe('data sheet');
    expect(rule({ relHumMaxPct: practice(90) })?.whose).toBe('firm');
  });
});
