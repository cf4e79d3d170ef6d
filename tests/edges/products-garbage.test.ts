import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Product, parseProduct, readOwnProduct } from '../../src/products/index.ts';

/** Whatever is handed in: an answer, never a throw; refusals are sentences; what passes is sound. */

const folder = new URL('../../data/products/', import.meta.url);
const files = readdirSync(folder).map(
  (file) => JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as Record<string, unknown>,
);
const classes = new Map<string, Product>(
  files.map((file) => {
    const parsed = parseProduct(file);
    if (!parsed.ok) throw new Error(String(file['id']));
    return [parsed.product.id, parsed.product];
  }),
);

const printed = { value: [10, 20], unit: 'min' };
const table = {
  event: 'touchDry',
  tempC: [10, 20],
  relHumPct: [50],
  minutes: [[30], [15]],
  source: 'user',
};
const full = {
  format: 'layfair-own-product-1',
  id: 'ours',
  name: 'Ours',
  basedOn: 'contact-solvent',
  does: ['field'],
  solvent: 'toluene',
  reference: { airTempC: 20, relHumPct: 50, windMps: { printed: { value: 2, unit: 'mph' } } },
  touchDry: { printed, source: 'data sheet' },
  openUntil: { lowMin: 60, typicalMin: 90, highMin: 120, source: 'user' },
  fullCure: { printed: { value: 2, unit: 'd' }, source: 'user' },
  tables: [table],
  coverage: {
    value: 2,
    unit: 'm2/L',
    source: 'user',
    on: { concrete: { value: 1.8, source: 'user' } },
  },
  materialTempC: { low: 15, high: 27, source: 'user' },
  limits: { airMinC: { printed: { value: 40, unit: '°F' }, source: 'data sheet' } },
  takesSheetLimits: ['airMinC'],
  hazards: ['Mind it.'],
  advice: ['Stir.'],
};

/** Every place in a value, as a list of keys. */
function places(value: unknown, at: readonly string[] = []): (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [at];
  return [at, ...Object.entries(value).flatMap(([key, inner]) => places(inner, [...at, key]))];
}
function put(value: unknown, [key, ...rest]: readonly string[], what: unknown): unknown {
  if (key === undefined) return what;
  const copy: unknown = Array.isArray(value) ? [...value] : { ...(value as object) };
  (copy as Record<string, unknown>)[key] = put((value as Record<string, unknown>)[key], rest, what);
  return copy;
}

const oddity = fc.oneof(
  fc.anything(),
  fc.jsonValue(),
  fc.double(),
  fc.constantFrom(0, -1, 1e308, 5e-324, '', '°F', 'm2/L', null, undefined, [], {}, 'constructor'),
  fc.constant(JSON.parse('{"__proto__": {"value": 1}, "constructor": 2}')),
);

function judge(read: ReturnType<typeof parseProduct> | ReturnType<typeof readOwnProduct>): void {
  if (!read.ok) {
    expect(read.issues.length).toBeGreaterThan(0);
    for (const { message } of read.issues) expect(message).toMatch(/\.$/);
    return;
  }
  // What passes can be kept as JSON and comes back the same through the same door.
  const { basedOn: _basedOn, limitChoices: _choices, ...product } = read.product;
  const again = parseProduct(
    JSON.parse(JSON.stringify({ format: 'layfair-product-1', ...product })),
  );
  expect(again.ok ? [] : again.issues).toEqual([]);
}

describe('anything at all', () => {
  it('is answered', () => {
    fc.assert(
      fc.property(oddity, (value) => {
        judge(parseProduct(value));
        judge(readOwnProduct(value, classes));
      }),
      { numRuns: 500 },
    );
  });
});

describe('a sound file with something odd put in one or two places', () => {
  it('is answered, a whole product', () => {
    fc.assert(
      fc.property(
        fc
          .constantFrom(...files)
          .chain((file) =>
            fc.tuple(
              fc.constant(file),
              fc.constantFrom(...places(file)),
              fc.constantFrom(...places(file)),
            ),
          ),
        oddity,
        oddity,
        ([file, one, two], first, second) => {
          judge(parseProduct(put(file, one, first)));
          const changed = put(file, one, first);
          if (places(changed).some((place) => place.join() === two.join()))
            judge(parseProduct(put(changed, two, second)));
        },
      ),
      { numRuns: 1500 },
    );
  });

  it('is answered, an own product on any class', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...places(full)),
        fc.constantFrom(...classes.keys()),
        oddity,
        (place, basedOn, odd) => {
          judge(readOwnProduct(put(full, place, odd), classes));
          judge(readOwnProduct(put({ ...full, basedOn }, place, odd), classes));
        },
      ),
      { numRuns: 1500 },
    );
  });
});

describe('an own product that passes', () => {
  it('never has a looser limit than its class, unless it takes the sheet’s by name', () => {
    const stricterUp = ['airMinC', 'surfaceMinC', 'dewMarginMinK'] as const;
    const stricterDown = ['airMaxC', 'surfaceMaxC', 'relHumMaxPct'] as const;
    const figure = (low: number, high: number) =>
      fc.option(fc.double({ min: low, max: high, noNaN: true }), { nil: undefined });
    const limits = fc.record({
      airMinC: figure(-5, 15),
      surfaceMinC: figure(-5, 15),
      dewMarginMinK: figure(0, 10),
      airMaxC: figure(25, 50),
      surfaceMaxC: figure(30, 70),
      relHumMaxPct: figure(60, 100),
    });
    let passed = 0;
    fc.assert(
      fc.property(fc.constantFrom(...classes.values()), limits, (klass, given) => {
        const read = readOwnProduct(
          {
            format: 'layfair-own-product-1',
            id: 'ours',
            name: 'Ours',
            basedOn: klass.id,
            limits: Object.fromEntries(
              Object.entries(given).flatMap(([key, value]) =>
                value === undefined ? [] : [[key, { value, source: 'data sheet' }]],
              ),
            ),
          },
          classes,
        );
        if (!read.ok) return;
        passed += 1;
        for (const key of [...stricterUp, ...stricterDown]) {
          const from = klass.limits[key]?.value;
          const got = read.product.limits[key]?.value;
          if (from === undefined) continue;
          const way = (stricterUp as readonly string[]).includes(key) ? 1 : -1;
          expect(way * got!).toBeGreaterThanOrEqual(way * from);
        }
        expect(read.product.hazards).toEqual(klass.hazards);
        expect(read.product.mechanism).toBe(klass.mechanism);
      }),
      { numRuns: 500 },
    );
    expect(passed).toBeGreaterThan(50);
  });
});
