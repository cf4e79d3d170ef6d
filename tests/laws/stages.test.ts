import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { EDGE_KINDS, layingBays, type Roof } from '../../src/roof/index.ts';
import {
  type Activity,
  baysFor,
  type DayWork,
  estimateDay,
  type planDayWork,
  STAGE_KINDS,
} from '../../src/stages/index.ts';
import { buildUpWith, CONTACT, FOAM, PRODUCTS, WET, workOf } from '../rules/stages-examples.ts';

/** What must hold of every day's list, whatever the roof, the crew and the material. */

const kind = fc.constantFrom(...EDGE_KINDS);
const metres = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((dm) => dm / 10);
const roofs: fc.Arbitrary<Roof> = fc.record({
  lengthM: metres(2, 40),
  widthM: metres(2, 30),
  fallDeg: fc.constant(1.4),
  fallAzimuthDeg: fc.constant(180),
  edges: fc.record({ low: kind, high: kind, left: kind, right: kind }),
  upstandMm: fc.integer({ min: 150, max: 500 }),
  outlets: fc.nat(3),
  pipes: fc.nat(5),
  rooflights: fc.nat(2),
});
const days = fc
  .record({
    roof: roofs,
    strip: fc.boolean(),
    field: fc.constantFrom(WET, CONTACT, FOAM),
    crewPeople: fc.integer({ min: 2, max: 10 }),
    bayAreaM2: fc.integer({ min: 8, max: 200 }),
    usableMin: fc.integer({ min: 4, max: 90 }),
    which: fc.double({ min: 0, max: 0.999, noNaN: true }),
  })
  .map(({ strip, field, which, ...d }) => {
    const products = { ...PRODUCTS, field };
    const q = { ...d, products, buildUp: buildUpWith(products, { strip }), bayIndex: 0 };
    const of = workOf(q).bay.of;
    return { ...q, bayIndex: Math.floor(which * of) };
  });

const ancestors = (work: DayWork, id: string): Set<string> => {
  const byId = new Map(work.activities.map((a) => [a.id, a]));
  const seen = new Set<string>();
  const visit = (at: string): void => {
    for (const before of byId.get(at)?.after ?? []) {
      if (seen.has(before)) continue;
      seen.add(before);
      visit(before);
    }
  };
  visit(id);
  return seen;
};

const all = (
  check: (work: DayWork, q: Parameters<typeof planDayWork>[0] & { readonly roof: Roof }) => void,
) =>
  fc.assert(
    fc.property(days, (q) => check(workOf(q), q)),
    { numRuns: 50 },
  );

const total = (list: readonly Activity[]) =>
  list.reduce((sum, a) => sum + (a.quantity?.value ?? 0), 0);

describe('the order of a day', () => {
  it('names only activities that stand earlier in the list, each id once', () => {
    all((work) => {
      const seen = new Set<string>();
      for (const a of work.activities) {
        for (const id of [...a.after, a.closes, a.restMin?.after]) {
          if (id !== undefined) expect(seen).toContain(id);
        }
        expect(seen).not.toContain(a.id);
        seen.add(a.id);
      }
    });
  });

  it('closes every coating exactly once, and only after it', () => {
    all((work) => {
      const coats = work.activities.filter((a) => a.coats && a.stage !== 'sealant');
      const closed = work.activities.flatMap((a) => a.closes ?? []);
      expect([...closed].sort()).toEqual(coats.map((a) => a.id).sort());
      for (const a of work.activities) if (a.closes) expect(a.after).toContain(a.closes);
    });
  });

  it('opens once, and nothing before that counts towards rain-safe', () => {
    all((work, q) => {
      const at = work.activities.findIndex((a) => a.opens);
      expect(work.activities.filter((a) => a.opens)).toHaveLength(1);
      expect(work.activities[at]?.noReturn).toBe(true);
      expect(work.activities[at]?.stage).toBe(q.buildUp.strip ? 'open-up' : 'field');
      expect(work.activities.findIndex((a) => a.forRainSafe)).toBe(at);
    });
  });

  it('puts sealant after everything rain-safe needs, and the last check after all', () => {
    all((work) => {
      const check = work.activities[work.activities.length - 1];
      expect(check?.id).toBe('check');
      expect(ancestors(work, 'check').size).toBe(work.activities.length - 1);
      const sealant = work.activities.find((a) => a.stage === 'sealant');
      expect(sealant?.forRainSafe ?? false).toBe(false);
      if (sealant === undefined) return;
      const before = ancestors(work, 'sealant');
      for (const a of work.activities) if (a.forRainSafe) expect(before).toContain(a.id);
    });
  });

  it('needs every lap, edge, upstand, patch, bar and night seal for rain-safe', () => {
    all((work) => {
      for (const a of work.activities) {
        const needed =
          ['laps', 'perimeter', 'details', 'night-seal'].includes(a.stage) ||
          a.id.startsWith('bar-');
        if (needed) expect(a.forRainSafe, a.id).toBe(true);
        if (a.id.startsWith('trim-')) expect(a.forRainSafe, a.id).toBe(false);
      }
    });
  });
});

describe('quantities of a day', () => {
  it('close the whole field, every lap and every outer edge', () => {
    all((work, q) => {
      const bay = work.bay.areaM2;
      const field = work.activities.filter((a) => a.stage === 'field' && !a.coats);
      const sheets = work.activities.filter((a) => a.id === 'unroll');
      expect(total(field)).toBeLessThan(bay);
      expect(total(sheets)).toBeGreaterThan(bay - 1e-9);
      const t = layingBays(q.roof, q.bayAreaM2)[q.bayIndex]!.takeOff();
      expect(total(field)).toBeCloseTo(t.fieldM2, 6);
      const laps = work.activities.filter((a) => a.stage === 'laps' && a.closes);
      expect(total(laps)).toBeCloseTo(
        t.laps.reduce((sum, lap) => sum + lap.lengthM, 0),
        6,
      );
      const edges = work.activities.filter((a) => a.stage === 'perimeter' && a.closes);
      const outer = t.edges.filter(({ kind }) => kind !== 'next-bay' && kind !== 'earlier-bay');
      const outerM = outer.reduce((sum, { lengthM }) => sum + lengthM, 0);
      const kerbsM = t.kerbs.reduce((sum, { aroundM }) => sum + aroundM, 0);
      expect(total(edges)).toBeCloseTo(outerM + kerbsM, 6);
      if (work.bay.of === 1) expect(outerM).toBeCloseTo(2 * (q.roof.lengthM + q.roof.widthM), 6);
      const patches = work.activities.filter((a) => a.stage === 'details' && a.closes);
      expect(total(patches)).toBe(
        t.corners.length + t.pipes + t.outlets + t.tJoints + 4 * t.kerbs.length,
      );
      const night = work.activities.filter((a) => a.id.startsWith('night-seal'));
      const openM = t.edges.reduce((sum, e) => sum + (e.kind === 'next-bay' ? e.lengthM : 0), 0);
      expect(total(night)).toBeCloseTo(openM, 6);
    });
  });

  it('keep every section, coated and closed, inside two thirds of its usable minutes', () => {
    all((work, q) => {
      const byId = new Map(work.activities.map((a) => [a.id, a]));
      // Test primer 8 to 45 min, test contact 20 to 80 min.
      const window = { field: q.usableMin, perimeter: 60, 'lap-tape': 37, patch: 37 } as const;
      for (const close of work.activities) {
        const coat = byId.get(close.closes ?? '');
        if (coat === undefined) continue;
        const people = Math.min(q.crewPeople, close.maxPeople);
        const takes = (coat.workerMin + close.workerMin) / people;
        const usable = window[close.productJob as keyof typeof window];
        // One metre is the shortest length anyone coats, however slow the work.
        const shortest = (close.quantity?.value ?? 0) <= 4 && close.stage === 'perimeter';
        if (!shortest) expect(takes, close.id).toBeLessThanOrEqual((usable * 2) / 3 + 1e-6);
        if (close.stage === 'field') expect(people).toBeLessThanOrEqual(q.crewPeople);
      }
      for (const a of work.activities) {
        if (a.runningFront === undefined) continue;
        expect(a.runningFront.stepMin).toBeLessThanOrEqual((q.usableMin * 2) / 3 + 1e-6);
        expect(a.quantity?.value).toBeCloseTo(a.runningFront.steps * a.runningFront.stepM2, 6);
      }
    });
  });

  it('ask for no more hands than the crew has, and for some work each', () => {
    all((work, q) => {
      for (const a of work.activities) {
        expect(a.minPeople, a.id).toBeLessThanOrEqual(q.crewPeople);
        expect(a.maxPeople, a.id).toBeGreaterThanOrEqual(a.minPeople);
        expect(a.maxPeople, a.id).toBeLessThanOrEqual(q.crewPeople);
        expect(a.workerMin, a.id).toBeGreaterThan(0);
        expect(a.ifRain.length, a.id).toBeGreaterThan(0);
        expect(a.rules, a.id).toContain('daylight');
        expect(a.rules, a.id).toContain('roof-wind');
        expect(STAGE_KINDS).toContain(a.stage);
      }
    });
  });
});

describe('more people', () => {
  const handsOn = (work: DayWork, people: number) =>
    work.activities.reduce((sum, a) => sum + a.workerMin / Math.min(people, a.maxPeople), 0);

  it('never lengthen the work of a bay', () => {
    fc.assert(
      fc.property(days, (q) => {
        const more = q.crewPeople + 1;
        const now = handsOn(workOf(q), q.crewPeople);
        expect(handsOn(workOf({ ...q, crewPeople: more }), more)).toBeLessThanOrEqual(now + 1e-6);
      }),
      { numRuns: 50 },
    );
  });

  it('never finish a day before its longest chain of waits and work allows', () => {
    all((work, q) => {
      const { finishMin, rainSafeMin } = estimateDay(work, q.crewPeople, q.products);
      expect(finishMin).toBeGreaterThanOrEqual(handsOn(work, q.crewPeople) - 1e-6);
      expect(rainSafeMin).toBeLessThanOrEqual(finishMin);
      expect(rainSafeMin).toBeGreaterThan(0);
    });
  });
});

describe('laying days', () => {
  it('fit their bays into the day with margin, and planDayWork splits the same way', () => {
    fc.assert(
      fc.property(days, (q) => {
        const { bayAreaM2: _area, bayIndex: _index, ...rest } = q;
        const answer = baysFor({ ...rest, workMinutesPerDay: 510 });
        fc.pre(answer.ok);
        if (!answer.ok) return;
        expect(answer.rainSafeMin).toBeLessThanOrEqual(0.85 * 510);
        expect(answer.finishMin).toBeLessThanOrEqual(510);
        const work = workOf({ ...q, bayAreaM2: answer.bayAreaM2, bayIndex: 0 });
        expect(work.bay.of).toBe(answer.days);
      }),
      { numRuns: 25 },
    );
  });
});
