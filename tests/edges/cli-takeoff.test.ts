import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { takeoffAnswerSchema } from '../../src/contract/index.ts';
import { refused } from '../fixtures/cli/refused.ts';
import { DEMO_JOBS, demoJob, readJson, run } from '../fixtures/cli/run-cli.ts';

const folder = mkdtempSync(join(tmpdir(), 'layfair-takeoff-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function asked(args: readonly string[]) {
  const { code, out, err } = await run(['takeoff', ...args, '--json']);
  expect([code, err]).toEqual([0, '']);
  return takeoffAnswerSchema.parse(JSON.parse(out));
}

/** A job file of our own made from a demo one. */
function jobFile(name: string, change: Record<string, unknown>): string {
  const file = join(folder, `${name}.json`);
  const job = readJson(demoJob('boat-store')) as Record<string, unknown>;
  writeFileSync(file, JSON.stringify({ ...job, ...change }));
  return file;
}

describe.each(DEMO_JOBS)('the take-off of the demo job %s', (name) => {
  it('is the same in words and as JSON', async () => {
    const answer = await asked([demoJob(name)]);
    const { code, out } = await run(['takeoff', demoJob(name)]);
    expect(code).toBe(0);
    const flat = out.replace(/\s+/g, ' ');
    expect(flat).toContain(`${answer.roof.surfaceM2.toFixed(1)} m² on the fall`);
    for (const { name: product } of answer.materials) expect(out).toContain(product);
    for (const row of answer.stages) expect(flat).toContain(row.title);
    expect(out).not.toMatch(/undefined|NaN|null|\bmember\b|\bactivity\b|\bdose\b/);
  });
});

describe('an L by its sizes', () => {
  // 10 x 8 m less 4 x 3 m: 80 - 12 = 68 m2; round it 2 x (10 + 8) = 36 m.
  const ell = (edges: Record<string, unknown>) =>
    jobFile('ell', {
      roof: {
        areas: [
          {
            id: 'main',
            shape: {
              kind: 'l-shape',
              lengthM: 10,
              widthM: 8,
              cutLengthM: 4,
              cutWidthM: 3,
              cutCorner: 'high-right',
            },
            fallDeg: 0,
            edges,
          },
        ],
      },
    });
  const verge = { kind: 'verge' };
  const all = {
    low: { kind: 'gutter' },
    right: verge,
    high: verge,
    left: verge,
    cutLength: verge,
    cutWidth: verge,
  };

  it('has the area and the edges of plane geometry', async () => {
    const { roof } = await asked([ell(all)]);
    expect(roof.surfaceM2).toBeCloseTo(68, 6);
    expect(roof.perimeterM).toBeCloseTo(36, 6);
    expect(roof.edges.map(({ lengthM }) => lengthM)).toEqual([10, 5, 4, 3, 6, 8]);
    // 150 mm inside: 9.7 x 7.7 less 4 x 3, the inner corner keeping its distance both ways.
    expect(roof.fieldM2).toBeCloseTo(9.7 * 7.7 - 4 * 3, 6);
  });

  it('is refused where an edge has no type, at its place', async () => {
    const { cutWidth: _, ...some } = all;
    expect(await refused(['takeoff', ell(some)], folder)).toMatch(/cutWidth.*has no type/);
  });
});

describe('what is set', () => {
  it('turns the rolls and tells what that does', async () => {
    const up = await asked([demoJob('seed-workshop'), '--turn', '0']);
    const across = await asked([demoJob('seed-workshop'), '--turn', '90']);
    expect(up.sheets.change).not.toBeNull();
    expect(up.sheets.rollsRunDeg).not.toEqual(across.sheets.rollsRunDeg);
    const { out } = await run(['takeoff', demoJob('seed-workshop'), '--turn', '0']);
    expect(out).toContain('As set by you');
  });

  it('takes own rates and a largest bay from the job', async () => {
    const usual = await asked([demoJob('boat-store')]);
    const file = jobFile('own', { rates: { sheetOut: 20 }, bayAreaM2: usual.roof.surfaceM2 / 2 });
    const own = await asked([file]);
    expect(own.days.length).toBeGreaterThan(usual.days.length);
    const row = own.stages.find(({ number }) => number === 8)!;
    expect(row.from[0]).toMatchObject({ typical: 20, source: 'user' });
  });

  it('writes the drawing to a new file only', async () => {
    const file = join(folder, 'roof.svg');
    const answer = await asked([demoJob('net-hall'), '--drawing', file]);
    expect(readFileSync(file, 'utf8')).toBe(answer.drawing);
    const again = await run(['takeoff', demoJob('net-hall'), '--drawing', file]);
    expect([again.code, again.out]).toEqual([2, '']);
    expect(again.err).toContain('there is a file of that name');
    expect(readFileSync(file, 'utf8')).toBe(answer.drawing);
  });

  it.each([
    [['--turn', 'round'], '--turn'],
    [['--turn', '400'], '--turn'],
    [['--shift', '-1'], '--shift'],
  ])('refuses %j with a sentence', async (args, words) => {
    expect(await refused(['takeoff', demoJob('boat-store'), ...args], folder)).toContain(words);
  });
});
