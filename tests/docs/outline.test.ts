import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { roofDrawingSchema } from '../../src/contract/index.ts';
import {
  CUT_CORNERS,
  FEATURE_KINDS,
  L_SIDES,
  measureRoof,
  OUTLINE_EDGE_KINDS,
  outlineRoof,
} from '../../src/roof/index.ts';

const page = readFileSync(new URL('../../docs/roof-drawing.md', import.meta.url), 'utf8');
const example: unknown = JSON.parse(/```json\n([\s\S]*?)```/.exec(page)?.[1] ?? '');

describe('the page on drawing a roof', () => {
  it('shows a roof that is accepted as it stands, without a question', () => {
    const { roof, issues } = outlineRoof(roofDrawingSchema.parse(example));
    expect(issues).toEqual([]);
    const m = measureRoof(roof!);
    // 10 x 8 - 4 x 3, and a trapezium of 6 and 5 by 3
    expect(m.planM2).toBeCloseTo(68 + 16.5, 9);
    expect(m.sharedEdges.map((met) => [met.meeting, met.lengthM])).toEqual([['ridge', 6]]);
  });

  it('names every field and every word that is accepted', () => {
    const words = [...OUTLINE_EDGE_KINDS, ...FEATURE_KINDS, ...CUT_CORNERS, ...L_SIDES];
    const fields = fieldsOf(roofDrawingSchema.parse(example));
    expect(fields.length).toBeGreaterThan(15);
    for (const word of [...words, ...fields, 'rectangle', 'l-shape', 'polygon'])
      expect(page, word).toContain(`\`${word}\``);
  });

  it('tells the defaults that are taken', () => {
    const roof = roofDrawingSchema.parse({
      areas: [{ id: 'a', shape: { kind: 'polygon', points: [] }, edges: [] }],
    });
    expect(roof).toMatchObject({ northDeg: 0, access: null });
    expect(roof.areas[0]).toMatchObject({ name: '', fallDeg: 1.4, fallPlanDeg: 180, features: [] });
    for (const row of ['`northDeg` .* 0', '`fallDeg` .* 1.4', '`fallPlanDeg` .* 180'])
      expect(page).toMatch(new RegExp(`^\\| ${row} \\|$`, 'm'));
  });
});

function fieldsOf(value: unknown): string[] {
  if (Array.isArray(value)) return [...new Set(value.flatMap(fieldsOf))];
  if (typeof value !== 'object' || value === null) return [];
  const own = Object.entries(value).flatMap(([key, inner]) => [key, ...fieldsOf(inner)]);
  return [...new Set(own)];
}
