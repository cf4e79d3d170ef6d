import { describe, expect, it } from 'vitest';
import type { Product } from '../../src/products/index.ts';
import {
  type BuildUp,
  type BuildUpProducts,
  baysFor,
  labourRates,
  planDayWork,
  withOwnRates,
} from '../../src/stages/index.ts';
import {
  buildUpWith,
  CONTACT,
  FOAM,
  GARAGE,
  HALL,
  PRODUCTS,
  WET,
  workOf,
} from './stages-examples.ts';

/** Rules of the trade as stated in docs/stages.md; all common practice unless said. */

function issuesOf(
  change: Partial<Omit<BuildUp, 'products'>>,
  products: BuildUpProducts = PRODUCTS,
  crewPeople = 3,
  usableMin = 10,
) {
  const answer = planDayWork({
    roof: GARAGE,
    buildUp: buildUpWith(products, change),
    products,
    crewPeople,
    bayAreaM2: 1000,
    bayIndex: 0,
    usableMin,
  });
  return answer.ok ? [] : answer.issues;
}

describe('build-ups that are refused', () => {
  it.each(['faced-board', 'existing-sheet'] as const)(
    'wet lay with a plain sheet over %s, which cannot absorb',
    (deck) => {
      const issues = issuesOf({ deck, strip: false });
      expect(issues.map((i) => i.path)).toEqual(['buildUp.products.field']);
      expect(issues[0]?.message).toContain('absorbs');
    },
  );

  it.each(['osb', 'plywood'] as const)('but not over %s', (deck) => {
    expect(issuesOf({ deck })).toEqual([]);
  });

  it('nor under fleece, which absorbs, nor with foam or contact adhesive', () => {
    const over = { deck: 'faced-board', strip: false } as const;
    expect(issuesOf({ ...over, sheet: 'fleece' })).toEqual([]);
    expect(issuesOf(over, { ...PRODUCTS, field: FOAM })).toEqual([]);
    expect(issuesOf(over, { ...PRODUCTS, field: CONTACT })).toEqual([]);
  });

  it('fleece in an adhesive closed touch dry', () => {
    const issues = issuesOf({ sheet: 'fleece' }, { ...PRODUCTS, field: CONTACT });
    expect(issues.map((i) => i.path)).toEqual(['buildUp.products.field']);
    expect(issues[0]?.message).toContain('fleece');
  });

  it('contact bonding with a film on one face only', () => {
    const oneFace: Product = { ...CONTACT, faces: 1 };
    expect(issuesOf({}, { ...PRODUCTS, field: oneFace })[0]?.message).toContain('both');
  });

  it('edges and upstands in an adhesive that does not grab at once', () => {
    const slow: Product = { ...WET, does: ['field', 'perimeter'] };
    const issues = issuesOf({}, { ...PRODUCTS, perimeter: slow });
    expect(issues.map((i) => i.path)).toEqual(['buildUp.products.perimeter']);
  });

  it.each(['field', 'perimeter', 'primer', 'lapTape', 'patch', 'sealant', 'nightSeal'] as const)(
    'a product for %s that is not made for it',
    (key) => {
      const wrong = key === 'lapTape' ? PRODUCTS.patch : PRODUCTS.lapTape;
      const issues = issuesOf({}, { ...PRODUCTS, [key]: wrong });
      expect(issues).toHaveLength(1);
      expect(issues[0]?.path).toBe(`buildUp.products.${key}`);
      expect(issues[0]?.message).toContain(wrong.name);
    },
  );

  it('a touch-dry product without its times', () => {
    const silent: Product = { ...CONTACT, openUntil: null };
    expect(issuesOf({}, { ...PRODUCTS, perimeter: silent })[0]?.message).toContain('open time');
  });

  it('stripping what is named as the deck', () => {
    const issues = issuesOf(
      { deck: 'existing-sheet', strip: true },
      { ...PRODUCTS, field: CONTACT },
    );
    expect(issues.map((i) => i.path)).toEqual(['buildUp.strip']);
  });

  it('a crew of one, and an adhesive gone before half a square metre is closed', () => {
    expect(issuesOf({}, PRODUCTS, 1)[0]?.path).toBe('crew.people');
    expect(issuesOf({}, PRODUCTS, 2, 1)[0]?.message).toContain('usable for 1 min');
  });

  it('names all that is wrong at once', () => {
    const issues = issuesOf({ deck: 'existing-sheet', strip: true, sheet: 'plain' });
    expect(issues.map((i) => i.path)).toEqual(['buildUp.products.field', 'buildUp.strip']);
  });

  it('a product that is not the one the build-up names is a bug and throws', () => {
    const buildUp = buildUpWith(PRODUCTS);
    const products = { ...PRODUCTS, field: FOAM };
    const q = { roof: GARAGE, buildUp, products, crewPeople: 3, bayAreaM2: 99, bayIndex: 0 };
    expect(() => planDayWork({ ...q, usableMin: 10 })).toThrow('test-foam');
  });
});

describe('section size', () => {
  it('of wet lay by 3 people in 10 min: 2/3 x 10 min x 3 x 12.5 m2/h = 4.17 m2 at most', () => {
    const most = ((10 * 2) / 3 / 60) * 3 * 12.5;
    const { sectionM2 } = workOf();
    expect(sectionM2).toBeLessThanOrEqual(most);
    // Half the garage's field is 18.24 / 2 = 9.12 m2: three sections of 3.04.
    expect(sectionM2).toBeCloseTo(3.04, 6);
  });

  it('lays the garage in six coat and close pairs, three to each half', () => {
    const ids = workOf()
      .activities.filter((a) => a.stage === 'field')
      .map((a) => a.id);
    expect(ids).toEqual(
      [1, 2].flatMap((half) =>
        [1, 2, 3].flatMap((n) => [`field-${half}-${n}-coat`, `field-${half}-${n}-close`]),
      ),
    );
  });

  it('starts the next wet section only when the last is rolled in', () => {
    const work = workOf();
    const coat = work.activities.find((a) => a.id === 'field-1-2-coat');
    expect(coat?.after).toEqual(['field-1-1-close']);
  });

  it('starts the next touch-dry section while the last one dries', () => {
    const products = { ...PRODUCTS, field: CONTACT };
    const work = workOf({ products, buildUp: buildUpWith(products), usableMin: 15 });
    const coat = work.activities.find((a) => a.id === 'field-1-2-coat');
    expect(coat?.after).toEqual(['field-1-1-coat']);
  });

  it('lays 100 m2 with 5 min open as a running front in at most 80 activities', () => {
    for (const usableMin of [2, 3, 5, 10, 20, 60]) {
      const work = workOf({ roof: HALL, crewPeople: 4, usableMin });
      expect(work.activities.length).toBeLessThanOrEqual(80);
    }
    const work = workOf({ roof: HALL, crewPeople: 4, usableMin: 5 });
    const fronts = work.activities.filter((a) => a.runningFront);
    expect(fronts.length).toBeGreaterThan(0);
    for (const front of fronts) expect(front.title).toContain('running front');
  });
});

describe('opening and rain-safe', () => {
  it('opens with the strip where there is one', () => {
    const strip = workOf().activities.find((a) => a.opens);
    expect(strip).toMatchObject({ id: 'strip', oneGo: true, noReturn: true, forRainSafe: true });
  });

  it('opens with the first adhesive on a deck that is already bare', () => {
    const work = workOf({ buildUp: buildUpWith(PRODUCTS, { strip: false }) });
    expect(work.activities.find((a) => a.opens)?.id).toBe('field-1-1-coat');
    expect(work.activities.find((a) => a.id === 'deck-check')?.forRainSafe).toBe(false);
  });

  it('night-seals towards the next bay before the roof counts as rain-safe, and not on the last', () => {
    const first = workOf({ roof: HALL, bayAreaM2: 50 });
    const seal = first.activities.find((a) => a.stage === 'night-seal');
    expect(seal).toMatchObject({ forRainSafe: true, quantity: { value: 8, unit: 'm' } });
    const last = workOf({ roof: HALL, bayAreaM2: 50, bayIndex: 1 });
    expect(last.activities.filter((a) => a.stage === 'night-seal')).toEqual([]);
    expect(last.activities.some((a) => a.title.startsWith('Take up the night seal'))).toBe(true);
  });

  it('closes up the whole outline if stopped at the worst moment', () => {
    // 2 x (6 + 3.5) = 19 m at 15 m per worker-hour
    expect(workOf().nightSeal).toEqual({ lengthM: 19, workerMin: 76 });
  });
});

describe('rules and hold points', () => {
  const byId = (id: string) => {
    const found = workOf().activities.find((a) => a.id === id);
    if (found === undefined) throw new Error(`no ${id}`);
    return found;
  };

  it('watch the cold night only for water-borne adhesive', () => {
    expect(byId('field-1-1-coat').rules).toContain('cold-night');
    expect(byId('edge-low-1-coat').rules).not.toContain('cold-night');
  });

  it('watch sheet wind while sheet is loose', () => {
    for (const id of ['unroll', 'relax', 'fold-1', 'field-1-1-close', 'fold-2']) {
      expect(byId(id).rules).toContain('sheet-wind');
    }
    expect(byId('sealant').rules).not.toContain('sheet-wind');
  });

  it('read the deck at 9 points for 21 m2 (3 per 10 m2) and stop over 19 %', () => {
    const check = byId('deck-check');
    expect(check.quantity).toEqual({ value: 9, unit: 'no.' });
    expect(check.holdPoints.join(' ')).toMatch(/16 % or less go, 16-19 % caution, over 19 % stop/);
    expect(check.holdPoints.join(' ')).toContain('30 s');
  });

  it('let the sheet relax 30 min before the first fold', () => {
    expect(byId('fold-1').restMin).toEqual({ after: 'relax', minutes: 30 });
  });

  it('coat three faces at a wall and two at an edge', () => {
    expect(byId('upstand-high-1-coat').coats?.surfaces).toEqual([
      'deck',
      'folded-sheet',
      'upstand',
    ]);
    expect(byId('edge-low-1-coat').coats?.surfaces).toEqual(['deck', 'folded-sheet']);
  });

  it('let an edge be coated as soon as the halves that reach it are down', () => {
    expect(byId('edge-left-1-coat').after).toEqual(['field-1-3-close']);
    expect(byId('edge-right-1-coat').after).toEqual(['field-2-3-close']);
  });

  it('warn of solvent vapour at solvent work and of weight at unrolling', () => {
    expect(byId('edge-low-1-coat').cautions.join(' ')).toContain('flammable');
    // 6.2 x 3.8 m at 1.6 kg/m2 = 37.7 kg
    expect(byId('unroll').cautions.join(' ')).toContain('40 kg');
  });
});

describe('labour rates', () => {
  // Printed ranges per worker-hour, common practice: the table of docs/stages.md.
  it.each([
    ['strip', 4, 8],
    ['sheetOut', 25, 50],
    ['fieldWet', 10, 15],
    ['fieldContact', 5, 8],
    ['fieldPolyurethane', 12, 25],
    ['lap', 6, 12],
    ['upstand', 3, 6],
    ['corner', 20, 40],
    ['outlet', 40, 60],
    ['bar', 8, 15],
    ['trim', 6, 12],
    ['sealant', 30, 60],
  ] as const)('%s runs from %d to %d', (id, low, high) => {
    expect(labourRates[id]).toMatchObject({ low, high, typical: (low + high) / 2 });
  });

  it('can be replaced by the firm, and say so', () => {
    const rates = withOwnRates({ strip: 10 });
    expect(rates.strip).toMatchObject({ typical: 10, source: 'user' });
    const strip = workOf({ rates }).activities.find((a) => a.id === 'strip');
    expect(strip?.workerMin).toBeCloseTo(126, 6); // 21 m2 / 10 x 60
    expect(() => withOwnRates({ strip: 0 })).toThrow('strip');
  });
});

describe('laying days', () => {
  const ask = (roof: typeof HALL, crewPeople: number, workMinutesPerDay = 510) =>
    baysFor({
      roof,
      buildUp: buildUpWith(PRODUCTS),
      products: PRODUCTS,
      crewPeople,
      workMinutesPerDay,
      usableMin: 10,
    });

  it('strip and lay a 21 m2 garage in one day with 2 people (20-40 m2: 2 people, 1 day)', () => {
    expect(ask(GARAGE, 2)).toMatchObject({ ok: true, days: 1 });
  });

  it('need 2 to 5 days for 100 m2 with 2 to 4 people (60-150 m2)', () => {
    for (const people of [2, 3, 4]) {
      const answer = ask(HALL, people);
      expect(answer.ok && answer.days).toBeGreaterThanOrEqual(2);
      expect(answer.ok && answer.days).toBeLessThanOrEqual(5);
    }
  });

  it('say so when no bay fits the day', () => {
    const answer = ask(HALL, 2, 120);
    expect(answer).toMatchObject({ ok: false });
    expect(!answer.ok && answer.issues[0]?.message).toContain('120-minute day');
  });

  it.each([
    ['crewPeople', { crewPeople: Number.NaN }],
    ['usableMin', { usableMin: 0 }],
    ['bayIndex', { bayIndex: 1 }],
  ])('throw naming %s when it is out of range', (name, change) => {
    expect(() => workOf(change)).toThrow(name);
  });
});
