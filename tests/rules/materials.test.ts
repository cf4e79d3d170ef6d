import { describe, expect, it } from 'vitest';
import { materialsFor, stageTable } from '../../src/stages/index.ts';
import { buildUpWith, GARAGE, PRODUCTS, WET } from './stages-examples.ts';

/**
 * Materials of the 6 x 3.5 m garage worked by hand. Coverage of the example products: 2 m2 per litre and
 * the like (tests/rules/stages-examples.ts); loss 10 %, the upper end of the usual 5-10 % (common practice).
 */

function materials(field = WET, deck: 'osb' | 'plywood' = 'osb') {
  const products = { ...PRODUCTS, field };
  const buildUp = buildUpWith(products, { deck });
  const table = stageTable({
    roof: GARAGE,
    buildUp,
    products,
    crewPeople: 3,
    bayAreaM2: 1000,
    usableMin: 10,
  });
  if (!table.ok) throw new Error('refused');
  return materialsFor(table.days, products, buildUp);
}

describe('the materials of a job', () => {
  it('cover the field inside the strip, with loss and whole tins', () => {
    // 5.7 x 3.2 = 18.24 m2 at 2 m2/L = 9.12 L; with 10 % 10.032 L, three tins of 5 L.
    const field = materials().find(({ product }) => product.id === WET.id)!;
    expect(field.net).toBeCloseTo(9.12, 9);
    expect(field.withLoss).toBeCloseTo(10.032, 9);
    expect(field).toMatchObject({ unit: 'L', lossPct: 10, container: 5, containers: 3 });
  });

  it('takes the coverage of the deck where the sheet lists it', () => {
    // A porous deck takes 10-25 % more (common practice): 1.6 instead of 2 m2/L is 25 % more.
    const thirsty = {
      ...WET,
      coverage: { ...WET.coverage, on: { osb: { value: 1.6, source: 'common practice' } } },
    } as const;
    const on = (deck: 'osb' | 'plywood') =>
      materials(thirsty, deck).find(({ product }) => product.id === WET.id)!.net;
    expect(on('osb')).toBeCloseTo(18.24 / 1.6, 9);
    expect(on('plywood')).toBeCloseTo(9.12, 9);
  });

  it('never orders less than is laid, and never a container too many', () => {
    for (const line of materials()) {
      expect(line.containers * line.container).toBeGreaterThanOrEqual(line.withLoss - 1e-9);
      expect((line.containers - 1) * line.container).toBeLessThan(line.withLoss);
    }
  });
});
