import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { jobFileSchema } from '../../src/contract/index.ts';

const page = readFileSync(new URL('../../docs/job-file.md', import.meta.url), 'utf8');
const example: unknown = JSON.parse(/```json\n([\s\S]*?)```/.exec(page)?.[1] ?? '');

describe('the page on the job file', () => {
  it('shows a job that is accepted as it stands', () => {
    expect(jobFileSchema.safeParse(example)).toMatchObject({ success: true });
  });

  it('names every field, also those that the example leaves out', () => {
    const fields = fieldsOf(jobFileSchema.parse(example));
    expect(fields.length).toBeGreaterThan(40);
    for (const field of [...fields, 'heightM', 'azimuthDeg', 'distanceM', 'from', 'minutes'])
      expect(page, field).toContain(`\`${field}\``);
  });

  it('tells the defaults that are taken', () => {
    for (const [field, value] of [
      ['terrain', '`suburban`'],
      ['roofHeightM', '4'],
      ['fallDeg', '1.4'],
      ['confidence', '0.8'],
    ] as const)
      expect(page).toMatch(new RegExp(`^\\| \`${field}\` .*\\| ${value} \\|$`, 'm'));
    expect(jobFileSchema.parse(example)).toMatchObject({
      site: { terrain: 'suburban', roofHeightM: 4 },
      roof: { fallDeg: 1.4 },
      confidence: 0.8,
    });
  });
});

function fieldsOf(value: object): string[] {
  return Object.entries(value).flatMap(([key, inner]) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? [key, ...fieldsOf(inner)]
      : [key],
  );
}
