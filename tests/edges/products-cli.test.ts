import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { clockAnswerSchema } from '../../src/contract/index.ts';
import { dataDir, demoJob, readJson, run } from '../fixtures/cli/run-cli.ts';

/** `layfair product`, and products of one's own brought in with `--products`. */

const folder = mkdtempSync(join(tmpdir(), 'layfair-products-'));
afterAll(() => rmSync(folder, { recursive: true }));
const keep = (name: string, value: unknown): string => {
  const file = join(folder, name);
  mkdirSync(join(file, '..'), { recursive: true });
  writeFileSync(file, typeof value === 'string' ? value : JSON.stringify(value));
  return file;
};

const table = {
  event: 'touchDry',
  relHumPct: [40, 50, 80],
  printed: {
    tempUnit: '°F',
    temps: [50, 68, 86],
    timeUnit: 'min',
    times: [
      [44, 50, 95],
      [26, 30, 60],
      [12, 15, 28],
    ],
  },
  source: 'data sheet',
};
const own = (more: object = {}) => ({
  format: 'layfair-own-product-1',
  id: 'our-two-side',
  name: 'Our two-side adhesive',
  basedOn: 'deck-adhesive-two-side',
  tables: [table],
  limits: { airMinC: { printed: { value: 40, unit: '°F' }, source: 'data sheet' } },
  ...more,
});
const good = keep('good/ours.json', own());

describe('layfair product', () => {
  it('prints what a product of one’s own comes to: source of each number, limits both name, table', async () => {
    const { code, out, err } = await run(['product', good]);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain(
      'Our two-side adhesive (our-two-side), from the class deck-adhesive-two-side',
    );
    expect(out).toMatch(/Air at least +10 °C +class: data sheet\n/);
    expect(out).toMatch(/4\.444 °C +sheet: data sheet, printed 40 °F; not used\n/);
    expect(out).toContain("the class's is\n    stricter and counts.");
    expect(out).toMatch(/Table of touchDry \[min\] \(data sheet; printed in °F and min\)/);
    expect(out).toMatch(/20 °C +26 +30 +60/);
    expect(out).toContain('Read the product data sheet');
    expect(out.split('\n').filter((line) => [...line].length > 100)).toEqual([]);
  });

  it('prints a bundled class the same way, and either as JSON', async () => {
    const bundled = await run(['product', join(dataDir, 'products', 'tape-primer.json')]);
    expect([bundled.code, bundled.out]).toEqual([
      0,
      expect.stringMatching(/Touch dry after +5 \/ 7\.5 \/ 10 min/),
    ]);
    const json = await run(['product', good, '--json']);
    const answer = JSON.parse(json.out);
    expect(answer.product).toMatchObject({ basedOn: 'deck-adhesive-two-side' });
    expect(answer.product.limitChoices).toHaveLength(1);
    expect(
      answer.numbers.every(({ counts }: { counts: { source: string } }) => counts.source),
    ).toBe(true);
  });

  it('ends with 2 and a sentence for every contradiction', async () => {
    const bad = keep(
      'bad.json',
      own({
        openUntil: { lowMin: 5, typicalMin: 6, highMin: 7, source: 'user' },
        coverage: { printed: { value: 20, unit: 'm2/L' }, source: 'data sheet' },
        sheetColour: 'black',
      }),
    );
    const shape = await run(['product', bad]);
    expect([shape.code, shape.out]).toEqual([2, '']);
    expect(shape.err).toMatch(
      /^sheetColour is 'black', but there is no such field; accepted are format, /,
    );
    const { sheetColour: _colour, ...rest } = JSON.parse(JSON.stringify(readJson(bad)));
    const { code, out, err } = await run(['product', keep('bad2.json', rest)]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/openUntil\.lowMin \(5 min\) does not end after touchDry\.lowMin/);
    expect(err).toMatch(/coverage\.value is 20 m2\/L; .*50 ml on a square metre/);
  });

  it.each([
    ['not there', join(folder, 'nowhere.json'), /The product file '.*' does not exist/],
    ['not JSON', keep('text.json', 'hello'), /is not valid JSON/],
    ['empty', keep('empty.json', ''), /is empty/],
    [
      'a list',
      keep('list.json', []),
      /^The file is a list of 0; accepted is a product of your own/,
    ],
    ['null', keep('null.json', 'null'), /^The file is null/],
  ])('a file that is %s ends with 2', async (_what, file, words) => {
    const { code, out, err } = await run(['product', file]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(words);
  });
});

describe('--products', () => {
  const clock = (product: string, ...more: string[]) =>
    run(['clock', product, '--coated', '2026-05-12T09:00Z', '--wind', '1', ...more]);

  it('a file or a folder: the clock follows the sheet’s own table at its points', async () => {
    for (const path of [good, join(folder, 'good')]) {
      const { code, out, err } = await clock(
        'our-two-side',
        '--air',
        '20',
        '--rh',
        '80',
        '--products',
        path,
        '--json',
      );
      expect([code, err]).toEqual([0, '']);
      const { touchDry, coatedMs } = clockAnswerSchema.parse(JSON.parse(out));
      // The printed table at 68 °F and 80 %.
      expect((touchDry!.midMs! - coatedMs) / 60_000).toBeCloseTo(60, 0);
    }
  });

  it('a job may name one, and the order of work has it by name', async () => {
    const job = readJson(demoJob('net-hall')) as { buildUp: { products: object } };
    const products = { ...job.buildUp.products, field: 'our-one-part' };
    const file = keep('job.json', { ...job, buildUp: { ...job.buildUp, products } });
    const product = keep(
      'part/one.json',
      own({ id: 'our-one-part', name: 'Our bead', basedOn: 'polyurethane-one-part', tables: [] }),
    );
    const without = await run(['work', file, '--day', '2026-05-13']);
    expect([without.code, without.err]).toEqual([
      2,
      expect.stringContaining("is 'our-one-part'; known products are"),
    ]);
    const { code, out } = await run(['work', file, '--day', '2026-05-13', '--products', product]);
    expect(code).toBe(0);
    expect(out).toContain('Our bead');
  });

  it('nothing is used of a folder with a file that is not in order, and all problems are told', async () => {
    keep('mixed/a.json', own());
    keep('mixed/b.json', own({ id: 'b', basedOn: 'nothing' }));
    keep('mixed/c.json', own({ name: 'The same id again' }));
    const { code, err } = await clock(
      'our-two-side',
      '--air',
      '20',
      '--rh',
      '50',
      '--products',
      join(folder, 'mixed'),
    );
    expect(code).toBe(2);
    expect(err).toMatch(/In '.*b\.json': basedOn is 'nothing'/);
    expect(err).toMatch(
      /In '.*c\.json': id is 'our-two-side', which another product has already\./,
    );
  });

  it('a path that is not there, or a folder without products, is told', async () => {
    keep('none/readme.txt', 'x');
    for (const [path, words] of [
      [join(folder, 'gone'), /--products is '.*', which does not exist/],
      [join(folder, 'none'), /a folder without a \.json file/],
    ] as const) {
      const { code, err } = await clock(
        'contact-solvent',
        '--air',
        '20',
        '--rh',
        '50',
        '--products',
        path,
      );
      expect([code, err]).toEqual([2, expect.stringMatching(words)]);
    }
  });
});
