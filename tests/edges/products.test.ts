import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseProduct } from '../../src/products/index.ts';

/**
 * The door products come through. Conversions checked here are exact by definition: °F to °C, and
 * the US gallon (231 in3) and foot (0.3048 m), NIST SP 811 appendix B.
 */

type Json = Record<string, unknown>;

const bundled = (id: string): Json =>
  JSON.parse(readFileSync(new URL(`../../data/products/${id}.json`, import.meta.url), 'utf8'));

/** A sound product with some fields replaced; a field set to undefined is taken out. */
function changed(id: string, changes: Json): Json {
  const product = { ...bundled(id), ...changes };
  for (const [key, value] of Object.entries(changes)) if (value === undefined) delete product[key];
  return product;
}

function issuesOf(value: unknown): Record<string, string> {
  const parsed = parseProduct(value);
  return parsed.ok ? {} : Object.fromEntries(parsed.issues.map((i) => [i.path, i.message]));
}

const time = (lowMin: number, typicalMin: number, highMin: number) => ({
  lowMin,
  typicalMin,
  highMin,
  source: 'user',
});
const limit = (value: unknown) => ({ value, source: 'user' });
const contact = (changes: Json) => issuesOf(changed('contact-solvent', changes));
const wetLay = (changes: Json) => issuesOf(changed('deck-adhesive-wet-lay', changes));
const tape = (changes: Json) => issuesOf(changed('seam-tape', changes));
const limits = (changes: Json) =>
  contact({ limits: { ...(bundled('contact-solvent')['limits'] as Json), ...changes } });

/** Added to the format later, so that files written before are still read. */
const ADDED = ['closeFrom', 'footTraffic', 'fullCure', 'tables', 'materialTempC'];
const MAY_BE_LEFT_OUT = [...ADDED, 'advice', 'sheet'];

describe('a sound product', () => {
  it('comes through with every value as written and without its format tag', () => {
    const { format, ...written } = bundled('contact-solvent');
    expect(format).toBe('layfair-product-1');
    expect(parseProduct(bundled('contact-solvent'))).toEqual({ ok: true, product: written });
  });

  it('may leave out the fields that the format gained: null, and no table', () => {
    const before = changed(
      'deck-adhesive-wet-lay',
      Object.fromEntries(ADDED.map((key) => [key, undefined])),
    );
    const parsed = parseProduct(before);
    expect(parsed.ok && parsed.product).toMatchObject({
      closeFrom: null,
      footTraffic: null,
      fullCure: null,
      tables: [],
      materialTempC: null,
    });
  });

  it('may leave out advice and every limit', () => {
    expect(contact({ advice: undefined, limits: {} })).toEqual({});
  });

  it('may have low, typical and high equal where only one figure is known', () => {
    expect(contact({ touchDry: time(15, 15, 15) })).toEqual({});
  });

  it('keeps blanks in a name instead of trimming them', () => {
    const parsed = parseProduct(changed('contact-solvent', { name: ' Two-face glue ' }));
    expect(parsed.ok && parsed.product.name).toBe(' Two-face glue ');
  });
});

describe('a field that is wrong in itself', () => {
  it.each([null, 'text', 7, [], undefined])('refuses %j as a product', (value) => {
    expect(issuesOf(value)['']).toMatch(/^The file is .*; accepted is a product/);
  });

  it('tells every missing field at once', () => {
    const told = Object.keys(issuesOf({}));
    expect(told).toEqual(
      expect.arrayContaining(
        Object.keys(bundled('contact-solvent')).filter((k) => !MAY_BE_LEFT_OUT.includes(k)),
      ),
    );
  });

  it('names an unknown field, its value and the fields there are', () => {
    expect(contact({ openTime: 30 })['openTime']).toMatch(
      /^openTime is 30, but there is no such field; accepted are .*openUntil/,
    );
    expect(limits({ windMaxMps: limit(7) })['limits.windMaxMps']).toMatch(
      /accepted are airMinC, .*hoursAfter\.$/,
    );
    expect(
      limits({ airMinC: { value: 5, source: 'user', unit: 'C' } })['limits.airMinC.unit'],
    ).toMatch(/accepted are value, source, printed\.$/);
    expect(contact({ touchDry: { ...time(1, 2, 3), midMin: 2 } })['touchDry.midMin']).toMatch(
      /accepted are lowMin, typicalMin, highMin, source, printed\.$/,
    );
    expect(
      contact({ reference: { airTempC: 20, relHumPct: 50, windMps: 1, sun: 0 } })['reference.sun'],
    ).toMatch(/accepted are airTempC, relHumPct, windMps\.$/);
  });

  it.each([
    ['format', 'layfair-product-2', "'layfair-product-1'"],
    ['id', 'Deck Adhesive', 'small letters, digits and hyphens'],
    ['name', '  ', 'a text of 1 to 120 letters'],
    ['does', [], 'at least one of field'],
    ['mechanism', 'glue', 'one of water, solvent, moisture-cure, chemical, none'],
    ['closing', 'dry', 'one of wet, touch-dry, none'],
    ['faces', 3, '1 or 2'],
    ['solvent', 'petrol', 'null or one of toluene'],
    ['hazards', [], 'a list of 1 to 24 sentences'],
    ['touchDry', '10 min', 'null or an object with lowMin'],
  ])('refuses %s %j and says what is accepted', (field, value, accepted) => {
    const message = contact({ [field]: value })[field];
    expect(message).toMatch(new RegExp(`^${field} is `));
    expect(message).toContain(accepted);
  });

  it('refuses NaN, infinity and a number in quotes', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, '5']) {
      expect(limits({ airMinC: limit(value) })).toHaveProperty(['limits.airMinC.value']);
      expect(contact({ coverage: { value, unit: 'm2/L', source: 'user' } })).toHaveProperty([
        'coverage.value',
      ]);
    }
  });

  it('suspects °F where 40 stands for a lowest air temperature: 40 °F is 4.4 °C', () => {
    expect(limits({ airMinC: limit(40) })['limits.airMinC.value']).toBe(
      'limits.airMinC.value is 40; accepted is a number in -20..30 °C. Maybe it was printed in °F: 40 °F is 4.4 °C.',
    );
  });

  it('suspects a fraction where humidity is 0.9', () => {
    expect(limits({ relHumMaxPct: limit(0.9) })['limits.relHumMaxPct.value']).toMatch(
      /0\.9 is 90 %\.$/,
    );
  });

  it('refuses a humidity limit over 100 %', () => {
    expect(limits({ relHumMaxPct: limit(101) })['limits.relHumMaxPct.value']).toContain(
      '30..100 %',
    );
  });
});

describe('fields that contradict each other', () => {
  it('times out of order', () => {
    expect(contact({ touchDry: time(20, 15, 25) })['touchDry.lowMin']).toBe(
      'touchDry.lowMin (20) is above touchDry.typicalMin (15); low, typical and high must rise.',
    );
    expect(contact({ openUntil: time(60, 90, 80) })['openUntil.typicalMin']).toContain(
      '(90) is above openUntil.highMin (80)',
    );
  });

  it('open time over before, or just as, the film is touch dry', () => {
    const told = contact({ openUntil: time(10, 17, 40) });
    expect(told['openUntil.lowMin']).toContain(
      '(10 min) does not end after touchDry.lowMin (10 min)',
    );
    expect(told['openUntil.typicalMin']).toContain(
      '(17 min) does not end after touchDry.typicalMin (17.5 min)',
    );
    expect(told).not.toHaveProperty(['openUntil.highMin']);
  });

  it('one face with a touch-dry closing', () => {
    expect(contact({ faces: 1 })['faces']).toMatch(/faces is 1, but closing is 'touch-dry'/);
  });

  it('a touch-dry closing without a touch-dry time or an open time', () => {
    const told = contact({ touchDry: null, openUntil: null });
    expect(told['touchDry']).toMatch(/touchDry is null, but closing is 'touch-dry'/);
    expect(told['openUntil']).toMatch(/openUntil is null, but closing is 'touch-dry'/);
  });

  it('a touch-dry time on an adhesive closed wet', () => {
    expect(wetLay({ touchDry: time(1, 2, 3) })['touchDry']).toMatch(
      /touchDry is 1 to 3 min, but closing is 'wet'/,
    );
  });

  it('times, two faces or a closing on a material that neither dries nor cures', () => {
    const told = tape({ rainAfter: time(1, 2, 3), faces: 2 });
    expect(told['rainAfter']).toMatch(/but mechanism is 'none'/);
    expect(told['faces']).toMatch(/faces is 2, but closing is 'none'/);
    expect(tape({ openUntil: time(5, 6, 7) })['openUntil']).toMatch(/but mechanism is 'none'/);
    expect(tape({ closing: 'wet' })['closing']).toMatch(
      /closing is 'wet', but mechanism is 'none'/,
    );
  });

  it('a solvent without its mechanism, and the mechanism without a solvent', () => {
    expect(contact({ solvent: null })['solvent']).toMatch(
      /solvent is null, but mechanism is 'solvent'/,
    );
    expect(wetLay({ solvent: 'acetone' })['solvent']).toMatch(
      /solvent is 'acetone', but mechanism is 'water'/,
    );
  });

  it('limits that cross or meet', () => {
    const told = limits({
      airMinC: limit(20),
      airMaxC: limit(20),
      surfaceMinC: limit(25),
      surfaceMaxC: limit(24),
    });
    expect(told['limits.airMinC']).toContain('(20 °C) is not below limits.airMaxC (20 °C)');
    expect(told['limits.surfaceMinC']).toContain('(25 °C) is not below limits.surfaceMaxC (24 °C)');
  });

  it('hours after laying without a temperature, and the temperature without hours', () => {
    expect(limits({ hoursAfter: limit(24) })['limits.hoursAfter']).toContain(
      'limits.afterMinC is missing',
    );
    expect(limits({ afterMinC: limit(5) })['limits.afterMinC']).toContain(
      'limits.hoursAfter is missing',
    );
    expect(limits({ afterMinC: limit(5), hoursAfter: limit(24) })).toEqual({});
  });

  it('times given for weather that the limits forbid', () => {
    const reference = { airTempC: 23, relHumPct: 50, windMps: 1 };
    expect(contact({ reference, limits: { airMaxC: limit(22) } })['reference.airTempC']).toContain(
      'outside limits.airMaxC (22 °C)',
    );
    expect(contact({ reference, limits: { airMinC: limit(24) } })['reference.airTempC']).toContain(
      'outside limits.airMinC (24 °C)',
    );
    expect(
      contact({ reference, limits: { relHumMaxPct: limit(45) } })['reference.relHumPct'],
    ).toContain('outside limits.relHumMaxPct (45 %)');
  });

  it('a coverage in another unit: 60 ft2/gal is 1.5 m2/L', () => {
    const cover = (value: number, unit = 'm2/L') =>
      contact({ coverage: { value, unit, source: 'user' } })['coverage.value'];
    expect(cover(60)).toBe(
      'coverage.value is 60 m2/L; accepted is 0.5..12 m2/L. Maybe it was printed in square feet per gallon: 60 ft2/gal US is 1.5 m2/L.',
    );
    expect(cover(20)).toBe(
      'coverage.value is 20 m2/L; accepted is 0.5..12 m2/L. That is a film of 50 ml on a square metre; maybe the figure is for a tin: divide it by the litres in the tin.',
    );
    expect(cover(0)).toContain('accepted is 0.5..12 m2/L');
    expect(cover(12)).toBeUndefined();
  });

  it('a field adhesive measured by the metre, and a job named twice', () => {
    expect(
      contact({ coverage: { value: 20, unit: 'm/L', source: 'user' } })['coverage.unit'],
    ).toMatch(/covers area/);
    expect(contact({ does: ['field', 'field'] })['does']).toContain('each job may be named once');
  });

  it('is told although another field is wrong in itself', () => {
    const told = contact({
      name: 5,
      faces: 1,
      limits: { airMinC: limit('x'), hoursAfter: limit(24) },
    });
    expect(Object.keys(told).sort()).toEqual([
      'faces',
      'limits.airMinC.value',
      'limits.hoursAfter',
      'name',
    ]);
  });
});
