import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  type Product,
  parseProduct,
  productNumbers,
  readOwnProduct,
  readTimesTable,
} from '../../src/products/index.ts';

/** A firm's own product: a class and what the firm's data sheet prints. */

type Json = Record<string, unknown>;
const folder = new URL('../../data/products/', import.meta.url);
const classes = new Map<string, Product>(
  readdirSync(folder).map((file) => {
    const parsed = parseProduct(JSON.parse(readFileSync(new URL(file, folder), 'utf8')));
    if (!parsed.ok) throw new Error(file);
    return [parsed.product.id, parsed.product];
  }),
);
const klass = (id: string): Product => classes.get(id)!;

const own = (basedOn: string, more: Json = {}): Json => ({
  format: 'layfair-own-product-1',
  id: 'ours',
  name: 'Ours',
  basedOn,
  ...more,
});
function resolved(basedOn: string, more: Json = {}) {
  const read = readOwnProduct(own(basedOn, more), classes);
  if (!read.ok) throw new Error(read.issues.map(({ message }) => message).join(' '));
  return read;
}
function told(basedOn: string, more: Json = {}): Record<string, string> {
  const read = readOwnProduct(own(basedOn, more), classes);
  return read.ok ? {} : Object.fromEntries(read.issues.map((i) => [i.path, i.message]));
}
const sheet = (value: number, unit: string) => ({ printed: { value, unit }, source: 'data sheet' });

describe('a product that names nothing but its class', () => {
  it.each([...classes.keys()])('%s: is that class under another name', (id) => {
    const { product, notes } = resolved(id);
    const { basedOn, limitChoices, ...rest } = product;
    expect(rest).toEqual({ ...klass(id), id: 'ours', name: 'Ours' });
    expect([basedOn, limitChoices, notes]).toEqual([id, [], []]);
    for (const { countsFrom, fromSheet } of productNumbers(product, resolved(id))) {
      expect([countsFrom, fromSheet]).toEqual(['class', null]);
    }
  });
});

describe('figures as the sheet prints them', () => {
  it('are converted exactly and kept beside ours', () => {
    const { product } = resolved('contact-solvent', {
      touchDry: { printed: { value: [0.25, 0.4], unit: 'h' }, source: 'data sheet' },
      fullCure: { printed: { value: [1, 2, 3], unit: 'd' }, source: 'data sheet' },
      // 1 gal US on 100 ft2 = 0.40746 L/m2, NIST SP 811.
      coverage: sheet(1, 'gal US/100 ft2'),
      materialTempC: { printed: { value: [60, 80], unit: '°F' }, source: 'data sheet' },
      limits: { airMinC: sheet(50, '°F'), dewMarginMinK: sheet(10, '°F') },
    });
    expect(product.touchDry).toEqual({
      lowMin: 15,
      typicalMin: 19.5,
      highMin: 24,
      source: 'data sheet',
      printed: { value: [0.25, 0.4], unit: 'h' },
    });
    expect(product.fullCure).toMatchObject({ lowMin: 1440, typicalMin: 2880, highMin: 4320 });
    expect(product.coverage.value).toBeCloseTo(1 / 0.40746, 4);
    expect(product.coverage.printed).toEqual({ value: 1, unit: 'gal US/100 ft2' });
    expect(product.materialTempC?.low).toBeCloseTo(15.5556, 4);
    expect(product.limits.airMinC).toEqual({
      value: 10,
      source: 'data sheet',
      printed: { value: 50, unit: '°F' },
    });
    expect(product.limits.dewMarginMinK?.value).toBeCloseTo(5.5556, 4);
  });

  it('one figure stands for low, typical and high; a coverage range for its middle', () => {
    const { product } = resolved('polyurethane-one-part', {
      fullCure: { printed: { value: 36, unit: 'h' }, source: 'data sheet' },
      coverage: { printed: { value: [150, 300], unit: 'g/m2' }, source: 'data sheet' },
    });
    expect(product.fullCure).toMatchObject({ lowMin: 2160, typicalMin: 2160, highMin: 2160 });
    expect(product.coverage.value).toBeCloseTo(1000 / 225, 6);
  });

  it('may stand beside ours, rounded; the exact one is used', () => {
    const both = (value: number) => ({ limits: { airMinC: { ...sheet(50.5, '°F'), value } } });
    expect(resolved('contact-solvent', both(10.3)).product.limits.airMinC?.value).toBeCloseTo(
      10.2778,
      4,
    );
    expect(told('contact-solvent', both(12))).toEqual({
      'limits.airMinC.value':
        'limits.airMinC.value is 12, but printed beside it is 50.5 °F, which is 10.28: one of the two is wrong.',
    });
  });

  it('a table in °F and hours is turned over whole and read between its points', () => {
    const { product } = resolved('polyurethane-foam', {
      tables: [
        {
          event: 'footTraffic',
          printed: {
            tempUnit: '°F',
            temps: [41, 68, 86],
            timeUnit: 'h',
            times: [[2], [0.7], [0.4]],
          },
          source: 'data sheet',
        },
      ],
    });
    const [table] = product.tables;
    expect(table).toMatchObject({
      tempC: [5, 20, 30],
      relHumPct: [],
      minutes: [[120], [42], [24]],
    });
    expect(table?.printed).toMatchObject({ tempUnit: '°F', temps: [41, 68, 86] });
    expect(readTimesTable(table!, 50)(20, 50).minutes).toBe(42);
    // 42 is what counts at 20 °C; the class's 20 / 40 / 60 lends its spread.
    expect(product.footTraffic).toMatchObject({ lowMin: 21, typicalMin: 42, highMin: 63 });
  });

  it('in an unknown unit, without any figure, or with too many, are told', () => {
    expect(
      told('contact-solvent', {
        touchDry: { printed: { value: 10, unit: 'fortnights' }, source: 'user' },
        openUntil: { source: 'user' },
        fullCure: { printed: { value: [1, 2, 3, 4], unit: 'd' }, source: 'user' },
        coverage: { printed: { value: 100, unit: 'ft2/gal' }, source: 'user' },
        limits: { airMinC: { printed: { value: [1, 2], unit: '°C' }, source: 'user' } },
      }),
    ).toMatchObject({
      'touchDry.printed.unit': "touchDry.printed.unit is 'fortnights'; accepted are min, s, h, d.",
      'openUntil.lowMin': expect.stringContaining('is missing'),
      'fullCure.printed.value': expect.stringContaining('has 4 figures'),
      'coverage.printed.unit': expect.stringContaining('A gallon must say which'),
      'limits.airMinC.printed.value': expect.stringContaining('has 2 figures'),
    });
  });
});

describe('units mistaken', () => {
  it('40 given as °C, 20 m2 per litre, humidity as a fraction: each named in a sentence', () => {
    const messages = told('contact-solvent', {
      coverage: sheet(20, 'm2/L'),
      limits: { airMinC: sheet(40, '°C'), relHumMaxPct: { value: 0.85, source: 'data sheet' } },
    });
    expect(messages).toEqual({
      'coverage.value': expect.stringMatching(/is 20 m2\/L; .*50 ml on a square metre/),
      'limits.airMinC.value': expect.stringContaining('40 °F is 4.4 °C'),
      'limits.relHumMaxPct.value': expect.stringContaining('0.85 is 85 %'),
    });
  });
});

describe('class limit and sheet limit', () => {
  const limits = (more: Json, takes?: string[]) =>
    resolved('contact-solvent', { limits: more, ...(takes && { takesSheetLimits: takes }) })
      .product;

  it('the stricter counts, whichever it is, and both are kept with a sentence', () => {
    const { limits: got, limitChoices } = limits({
      airMinC: sheet(40, '°F'),
      airMaxC: sheet(35, '°C'),
    });
    expect(got.airMinC).toEqual({ value: 5, source: 'common practice' });
    expect(got.airMaxC).toMatchObject({ value: 35, source: 'data sheet' });
    expect(limitChoices).toEqual([
      {
        limit: 'airMinC',
        fromClass: { value: 5, source: 'common practice' },
        fromSheet: expect.objectContaining({ printed: { value: 40, unit: '°F' } }),
        wins: 'class',
        words:
          "Air at least: class 5 °C (common practice), sheet 4.444 °C (40 °F, data sheet); the class's is stricter and counts.",
      },
      expect.objectContaining({ limit: 'airMaxC', wins: 'sheet' }),
    ]);
  });

  it.each([
    ['airMinC', 7, 3],
    ['airMaxC', 35, 45],
    ['surfaceMinC', 7, 3],
    ['surfaceMaxC', 45, 60],
    ['dewMarginMinK', 6, 3],
    ['relHumMaxPct', 80, 95],
  ] as const)('%s: %d is stricter than the class, %d looser', (key, stricter, looser) => {
    const given = (value: number) => ({ [key]: { value, source: 'data sheet' } });
    const ofClass = klass('contact-solvent').limits[key]!.value;
    expect(limits(given(stricter)).limits[key]!.value).toBe(stricter);
    expect(limits(given(looser)).limits[key]!.value).toBe(ofClass);
    const taken = limits(given(looser), [key]);
    expect(taken.limits[key]!.value).toBe(looser);
    expect(taken.limitChoices).toEqual([
      expect.objectContaining({
        wins: 'sheet',
        words: expect.stringContaining('the firm takes it by name'),
      }),
    ]);
  });

  it('more hours afterwards and a higher temperature for them are stricter', () => {
    const hours = (value: number) =>
      resolved('deck-adhesive-wet-lay', { limits: { hoursAfter: sheet(value, 'd') } }).product
        .limits.hoursAfter;
    expect(hours(2)?.value).toBe(48);
    expect(hours(0.5)?.value).toBe(24);
  });

  it('equal ones are no choice; one that only the sheet names is simply the sheet’s', () => {
    expect(limits({ airMinC: sheet(41, '°F') }).limitChoices).toEqual([]);
    const after = { afterMinC: sheet(0, '°C'), hoursAfter: sheet(12, 'h') };
    const { limits: got, limitChoices } = limits(after);
    expect([got.afterMinC?.value, got.hoursAfter?.value, limitChoices]).toEqual([0, 12, []]);
  });

  it('a looser figure is taken only where the data sheet prints it', () => {
    const looser = { airMinC: { value: 0, source: 'from memory' } };
    expect(
      told('contact-solvent', { limits: looser, takesSheetLimits: ['airMinC'] })[
        'takesSheetLimits'
      ],
    ).toContain("the source of limits.airMinC is 'from memory'");
    expect(
      told('contact-solvent', { takesSheetLimits: ['airMaxC'] })['takesSheetLimits'],
    ).toContain('limits.airMaxC is missing');
  });
});

describe('what the class alone decides', () => {
  it('mechanism, closing, faces: named as the class’s', () => {
    const messages = told('contact-solvent', { mechanism: 'none', faces: 1, closing: 'wet' });
    for (const key of ['mechanism', 'faces', 'closing'])
      expect(messages[key]).toContain(`${key} is given, but it comes with the class`);
  });

  it('hazards and advice are added to, never dropped', () => {
    const { product } = resolved('contact-solvent', {
      hazards: ['Shake the tin.'],
      advice: ['Stir.'],
    });
    const from = klass('contact-solvent');
    expect(product.hazards).toEqual([...from.hazards, 'Shake the tin.']);
    expect(product.advice).toEqual([...from.advice!, 'Stir.']);
    expect(told('contact-solvent', { hazards: [] })).toHaveProperty(['hazards']);
  });

  it('it may do less, never more; it has an id of its own and a class there is', () => {
    expect(resolved('contact-solvent', { does: ['perimeter'] }).product.does).toEqual([
      'perimeter',
    ]);
    expect(told('contact-solvent', { does: ['sealant'] })['does']).toContain(
      'only does field, perimeter',
    );
    expect(told('contact-solvent', { id: 'seam-tape' })['id']).toContain('which is a class');
    expect(told('nothing')['basedOn']).toMatch(/^basedOn is 'nothing'; classes are .*seam-tape/);
    expect(told('contact-solvent', { sheet: {} })['sheet']).toContain('is not a membrane');
  });
});

describe('contradictions with what comes from the class', () => {
  it('say so', () => {
    const late = { printed: { value: 2, unit: 'h' }, source: 'data sheet' };
    expect(told('contact-solvent', { touchDry: late })['openUntil.lowMin']).toBe(
      'openUntil.lowMin (60 min) does not end after touchDry.lowMin (120 min): both count from coating, so the film would be past use before it is ready. openUntil comes from the class contact-solvent.',
    );
  });
});

describe('reference conditions of the sheet', () => {
  it('carry the class’s times by its own law: quicker where it is warmer, and told', () => {
    const { product, notes } = resolved('contact-solvent', {
      reference: { airTempC: { printed: { value: 86, unit: '°F' } } },
    });
    expect(product.reference).toEqual({ airTempC: 30, relHumPct: 50, windMps: 1 });
    expect(product.touchDry!.typicalMin).toBeLessThan(17.5);
    expect(notes.join(' ')).toMatch(
      /Touch dry after: the class's 17\.5 min at 20 °C and 50 % is .* at the sheet's 30 °C/,
    );
  });

  it('leave a time alone that the sheet prints, and one that runs by plain time', () => {
    const { product } = resolved('tape-primer', {
      reference: { airTempC: 23 },
      touchDry: { lowMin: 4, highMin: 8, source: 'data sheet' },
    });
    expect(product.touchDry).toMatchObject({ lowMin: 4, typicalMin: 6, highMin: 8 });
    expect(product.openUntil).toEqual(klass('tape-primer').openUntil);
  });
});

describe('docs/products.md', () => {
  it('prints an own product that is in order, with the class’s limit kept where it is stricter', () => {
    const page = readFileSync(new URL('../../docs/products.md', import.meta.url), 'utf8');
    const example = JSON.parse(/```json\n([\s\S]*?)```/.exec(page)![1]!);
    const read = readOwnProduct(example, classes);
    expect(read.ok ? [] : read.issues).toEqual([]);
    if (!read.ok) return;
    expect(read.product.limits).toMatchObject({
      airMinC: { value: 5 },
      relHumMaxPct: { value: 85 },
    });
    expect(read.product.limitChoices?.map(({ wins }) => wins)).toEqual(['class', 'sheet']);
  });
});
