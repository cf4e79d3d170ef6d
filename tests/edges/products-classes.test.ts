import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Product } from '../../src/products/index.ts';
import { parseProduct } from '../../src/products/index.ts';
import { limitsSchema, productFileSchema } from '../../src/products/schema.ts';

const folder = new URL('../../data/products/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.json'));

function load(file: string): Product {
  const parsed = parseProduct(JSON.parse(readFileSync(new URL(file, folder), 'utf8')));
  if (!parsed.ok) throw new Error(`${file}: ${parsed.issues.map((i) => i.message).join(' ')}`);
  return parsed.product;
}
const products = new Map(files.map((file) => [file.replace(/\.json$/, ''), load(file)]));
const product = (id: string): Product => {
  const found = products.get(id);
  if (!found) throw new Error(`no class ${id}`);
  return found;
};

describe('the bundled product classes', () => {
  it('are the eleven that jobs can name, each in a file named by its id', () => {
    expect([...products.keys()].sort()).toEqual([
      'contact-low-voc',
      'contact-solvent',
      'deck-adhesive-two-side',
      'deck-adhesive-wet-lay',
      'lap-sealant',
      'night-seal-mastic',
      'polyurethane-foam',
      'polyurethane-one-part',
      'seam-tape',
      'tape-primer',
      'uncured-patch',
    ]);
    for (const [name, { id }] of products) expect(id).toBe(name);
  });

  it('cover every job a build-up asks for', () => {
    const does = new Set([...products.values()].flatMap((p) => p.does));
    expect([...does].sort()).toEqual([
      'field',
      'lap-tape',
      'night-seal',
      'patch',
      'perimeter',
      'primer',
      'sealant',
    ]);
  });

  // Ranges at 20 °C and 50 % as the trade gives them: touch dry and skin times common practice, open
  // times from memory (installers' guides and several makers' sheets; no single sheet).
  it.each([
    ['deck-adhesive-wet-lay', null, [5, 15], null],
    ['deck-adhesive-two-side', [20, 40], [20 + 30, 40 + 60], null],
    ['contact-solvent', [10, 25], [60, 120], null],
    ['contact-low-voc', [15, 45], [15 + 30, 45 + 60], null],
    ['polyurethane-one-part', null, [15, 30], null],
    ['tape-primer', [5, 10], [30, 60], null],
    ['lap-sealant', null, null, [20, 60]],
  ] as const)('%s holds the trade ranges', (id, touchDry, openUntil, rainAfter) => {
    const { reference, ...p } = product(id);
    const ends = (t: Product['touchDry']) => t && [t.lowMin, t.highMin];
    expect(ends(p.touchDry)).toEqual(touchDry);
    expect(ends(p.openUntil)).toEqual(openUntil);
    expect(ends(p.rainAfter)).toEqual(rainAfter);
    expect(reference).toEqual({ airTempC: 20, relHumPct: 50, windMps: 1 });
  });

  it('say how much is used within the ranges installers give', () => {
    // common practice: wet lay 0.33-0.4 L/m2; contact, both faces, 0.5-0.7 L/m2 finished;
    // polyurethane bead 150-300 g/m2; primer 0.03-0.05 L per m of lap; 300 ml of sealant 5-8 m.
    const perUnit = (id: string, unit: string) => {
      expect(product(id).coverage.unit).toBe(unit);
      return 1 / product(id).coverage.value;
    };
    const within = (value: number, low: number, high: number) => {
      expect(value).toBeGreaterThanOrEqual(low);
      expect(value).toBeLessThanOrEqual(high);
    };
    within(perUnit('deck-adhesive-wet-lay', 'm2/L'), 0.33, 0.4);
    within(perUnit('contact-solvent', 'm2/L'), 0.5, 0.7);
    within(perUnit('contact-low-voc', 'm2/L'), 0.5, 0.7);
    within(perUnit('polyurethane-one-part', 'm2/kg'), 0.15, 0.3);
    within(perUnit('tape-primer', 'm/L'), 0.03, 0.05);
    within(product('lap-sealant').coverage.value, 5, 8);
  });

  it('keep water-borne adhesive at 5 °C and up for the next 24 hours, as data sheets print', () => {
    for (const id of ['deck-adhesive-wet-lay', 'deck-adhesive-two-side']) {
      const { airMinC, afterMinC, hoursAfter, relHumMaxPct } = product(id).limits;
      expect(airMinC?.value).toBeGreaterThanOrEqual(5);
      expect(afterMinC).toEqual({ value: 5, source: 'data sheet' });
      expect(hoursAfter).toEqual({ value: 24, source: 'data sheet' });
      expect(relHumMaxPct).toEqual({ value: 90, source: 'data sheet' });
    }
  });

  it('ask for more above dew point where a solvent chills its film', () => {
    for (const { id, mechanism, limits } of products.values()) {
      if (id === 'night-seal-mastic') continue;
      expect(limits.dewMarginMinK?.value).toBe(mechanism === 'solvent' ? 5 : 3);
    }
  });

  it('claim a data sheet only for limits, never for a time or a coverage', () => {
    for (const { touchDry, openUntil, rainAfter, coverage } of products.values()) {
      for (const number of [touchDry, openUntil, rainAfter, coverage]) {
        expect(number?.source).not.toBe('data sheet');
      }
    }
  });

  it('warn of ignition where there is solvent and of sensitising where there is isocyanate', () => {
    for (const { id, mechanism, hazards } of products.values()) {
      const all = hazards.join(' ');
      expect(/no smoking, flames/.test(all)).toBe(mechanism === 'solvent');
      expect(/isocyanates/.test(all)).toBe(id.startsWith('polyurethane'));
      expect(all).toMatch(/data sheet/);
      expect(all).not.toMatch(/\bsafe\b/i);
    }
  });
});

describe('docs/products.md', () => {
  const page = readFileSync(new URL('../../docs/products.md', import.meta.url), 'utf8');

  it('explains every class, every field and every limit', () => {
    const named = [
      ...products.keys(),
      ...Object.keys(productFileSchema.shape),
      ...Object.keys(limitsSchema.shape),
    ];
    expect(named.filter((name) => !page.includes(`\`${name}\``))).toEqual([]);
  });

  it('prints the times the files hold', () => {
    for (const p of products.values()) {
      const row = page.split('\n').find((line) => line.startsWith(`| \`${p.id}\` |`));
      for (const time of [p.touchDry, p.openUntil]) {
        if (time) expect(row).toContain(`${time.lowMin} / ${time.typicalMin} / ${time.highMin}`);
      }
      const metres = /^[\d.]+/.exec(row?.split('|')[6]?.trim() ?? '')?.[0];
      if (p.coverage.unit !== 'each') expect(Number(metres)).toBe(p.coverage.value);
    }
  });
});
