import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type JobFile, jobFileSchema } from '../../src/contract/index.ts';
import { parseProduct } from '../../src/products/index.ts';
import { rowsFor } from '../../web/src/products/form-rows.ts';
import { formOf, type OwnFile, readForm } from '../../web/src/products/own-form.ts';
import { draftOf, readDraft } from '../../web/src/roof/what-if.ts';
import { inPlainNames } from '../../web/src/words/plain-names.ts';

/** The first complete example of a page of the docs. */
function example(doc: string, from = ''): unknown {
  const text = readFileSync(new URL(`../../docs/${doc}.md`, import.meta.url), 'utf8');
  const [, json] = /```json\n([\s\S]*?)```/.exec(text.slice(text.indexOf(from))) ?? [];
  return JSON.parse(json ?? '');
}

describe('what is tried on a roof', () => {
  const plain = jobFileSchema.parse(example('job-file'));
  const set: JobFile = {
    ...plain,
    layout: {
      lapM: 0.1,
      choices: { roof: { shiftM: 0.4, rollsRunDeg: 90, sheets: [] }, elsewhere: { shiftM: 1 } },
    },
    rates: { strip: 5, lap: 7.5 },
    bayAreaM2: 30,
  };

  it.each([
    ['a job as it comes', plain],
    ['a job with everything set', set],
  ])('is nothing as long as nothing is typed: %s', (_, job) => {
    const read = readDraft(job, draftOf(job));
    if (!read.ok) throw new Error('a kept job was refused');
    expect(read.changed).toBe(false);
    expect(read.job).toEqual(job);
  });

  it('is the job with what was typed, and all else as it was', () => {
    const draft = draftOf(set);
    const read = readDraft(set, {
      ...draft,
      areas: { roof: { turn: ' -17,5 ', shift: '' } },
      rates: { ...draft.rates, strip: '' },
      bay: '25',
    });
    if (!read.ok) throw new Error('what was typed was refused');
    expect(read.changed).toBe(true);
    expect(read.job).toEqual({
      ...set,
      layout: {
        lapM: 0.1,
        choices: { roof: { rollsRunDeg: -17.5, sheets: [] }, elsewhere: { shiftM: 1 } },
      },
      rates: { lap: 7.5 },
      bayAreaM2: 25,
    });
    expect(jobFileSchema.safeParse(read.job).success).toBe(true);
  });

  it('names every field that is no number at once', () => {
    const read = readDraft(plain, {
      ...draftOf(plain),
      areas: { roof: { turn: 'left', shift: '1 m' } },
      rates: { strip: 'slow' },
      bay: 'NaN',
    });
    if (read.ok) throw new Error('words were read as numbers');
    expect(Object.keys(read.errors).sort()).toEqual([
      'bayAreaM2',
      'layout.choices.roof.rollsRunDeg',
      'layout.choices.roof.shiftM',
      'rates.strip',
    ]);
    for (const [, sentence] of Object.entries(read.errors)) expect(sentence).toMatch(/is “.+”; /);
  });
});

describe('a product of one’s own in the form', () => {
  const own = example('products', '## A product of your own') as OwnFile;
  const file = new URL(`../../data/products/${own.basedOn}.json`, import.meta.url);
  const parsed = parseProduct(JSON.parse(readFileSync(file, 'utf8')));
  if (!parsed.ok) throw new Error(`the class ${own.basedOn} is unsound`);
  const rows = rowsFor(parsed.product).flatMap((group) => group.rows);

  it('goes back as it was where nothing is touched, tables and all', () => {
    const read = readForm(formOf(own, rows), rows, own);
    expect(read).toEqual({ ok: true, product: own });
  });

  it('changes the one figure that is typed and takes out the one that is emptied', () => {
    const form = formOf(own, rows);
    const read = readForm(
      {
        ...form,
        rows: {
          ...form.rows,
          'limits.airMinC': { text: '45', unit: '°F' },
          'limits.relHumMaxPct': { text: '', unit: '%' },
          'reference.airTempC': { text: '23', unit: '°C' },
        },
        source: 'user',
      },
      rows,
      own,
    );
    expect(read).toEqual({
      ok: true,
      product: {
        ...own,
        limits: { airMinC: { printed: { value: 45, unit: '°F' }, source: 'user' } },
        reference: { ...own.reference, airTempC: { printed: { value: 23, unit: '°C' } } },
      },
    });
  });

  it('takes no limit from the sheet that the sheet does not name', () => {
    const form = formOf(own, rows);
    const read = readForm({ ...form, takes: ['airMinC', 'surfaceMinC'] }, rows, own);
    expect(read).toEqual({ ok: true, product: { ...own, takesSheetLimits: ['airMinC'] } });
  });
});

describe('a server’s sentence in the words of the form', () => {
  const labels = [
    { field: 'limits.airMinC', label: 'Air at least' },
    { field: 'openUntil', label: 'Open time' },
    { field: 'id', label: 'Id' },
  ];
  it.each([
    ['limits.airMinC.value is 40; accepted', 'Air at least is 40; accepted'],
    ['product.limits.airMinC.printed.unit is K; accepted', 'Air at least, unit is K; accepted'],
    ['openUntil.lowMin (5 min) ends', 'Open time, low end (5 min) ends'],
    ['A solid film did not openUntilNow.', 'A solid film did not openUntilNow.'],
    ['limits.airMinCx is new', 'limits.airMinCx is new'],
  ])('%s', (sentence, plain) => {
    expect(inPlainNames(sentence, labels)).toBe(plain);
  });
});
