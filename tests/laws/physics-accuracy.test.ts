/** docs/accuracy.md carries the table `npm run accuracy` prints, and no formula has drifted. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { accuracyMarkdown, physicsAccuracyRows } from '../accuracy/physics-table.ts';

const page = readFileSync(new URL('../../docs/accuracy.md', import.meta.url), 'utf8');

describe('the accuracy page', () => {
  it('carries the table of formulas as printed', () => {
    const table = page.split('<!-- end of physics table -->')[0]?.split('-->\n').at(-1)?.trim();
    expect(table).toBe(accuracyMarkdown(physicsAccuracyRows()));
  });

  it('has a row for every kind of formula, each over at least one value', () => {
    const rows = physicsAccuracyRows();
    expect(rows.length).toBeGreaterThan(25);
    for (const row of rows) {
      expect(row.n).toBeGreaterThan(0);
      expect(Math.abs(row.meanError)).toBeLessThanOrEqual(Math.abs(row.worstError) + 1e-12);
    }
  });
});
