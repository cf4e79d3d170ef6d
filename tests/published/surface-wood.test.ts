/** Wood moisture: USDA Wood Handbook (FPL-GTR-190) ch. 4. Rows: tests/fixtures/published/surface.ts. */
import { describe, expect, it } from 'vitest';
import { woodEquilibriumMoisturePct } from '../../src/physics/index.ts';
import { WOOD } from '../fixtures/published/surface.ts';

describe('wood in steady air', () => {
  it.each(WOOD.rows)('of $airTempC °C and $relHumPct % settles at $moisturePct %', (row) => {
    const got = woodEquilibriumMoisturePct(row);
    expect(Math.abs(got - row.moisturePct)).toBeLessThanOrEqual(WOOD.tolerancePct);
  });

  it('does not give the 11.6 that circulates for 70 °F and 65 %', () => {
    expect(woodEquilibriumMoisturePct({ airTempC: 21.1, relHumPct: 65 })).toBeGreaterThan(11.8);
  });
});
