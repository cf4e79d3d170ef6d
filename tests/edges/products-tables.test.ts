import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseProduct } from '../../src/products/index.ts';

/** Tables of times, times that must come one after the other, sheets, and printed figures beside ours. */

type Json = Record<string, unknown>;
const bundled = (id: string): Json =>
  JSON.parse(readFileSync(new URL(`../../data/products/${id}.json`, import.meta.url), 'utf8'));
function told(id: string, changes: Json): Record<string, string> {
  const parsed = parseProduct({ ...bundled(id), ...changes });
  return parsed.ok ? {} : Object.fromEntries(parsed.issues.map((i) => [i.path, i.message]));
}
const time = (lowMin: number, typicalMin: number, highMin: number) => ({
  lowMin,
  typicalMin,
  highMin,
  source: 'user',
});

const dry = {
  event: 'touchDry',
  tempC: [10, 20, 30],
  relHumPct: [50, 80],
  minutes: [
    [50, 95],
    [30, 60],
    [15, 28],
  ],
  source: 'data sheet',
};
const twoSide = (change: Json, more: Json = {}) =>
  told('deck-adhesive-two-side', { tables: [{ ...dry, ...change }], ...more });

describe('a table of times', () => {
  it('comes through as written', () => {
    const parsed = parseProduct({ ...bundled('deck-adhesive-two-side'), tables: [dry] });
    expect(parsed.ok && parsed.product.tables).toEqual([dry]);
  });

  it('may name no humidity: one time for each temperature', () => {
    expect(twoSide({ relHumPct: [], minutes: [[50], [30], [15]] })).toEqual({});
  });

  it('has axes that rise and rows that fit them', () => {
    expect(twoSide({ tempC: [10, 30, 20] })['tables.0.tempC']).toBe(
      'tables.0.tempC does not rise: 20 comes after 30; write it from low to high, each once.',
    );
    expect(twoSide({ relHumPct: [80, 80] })['tables.0.relHumPct']).toContain('80 comes after 80');
    expect(twoSide({ tempC: [10, 20] })['tables.0.minutes']).toBe(
      'tables.0.minutes has 3 rows, but there are 2 temperatures; each has one row.',
    );
    expect(twoSide({ minutes: [[50, 95], [30], [15, 28]] })['tables.0.minutes.1']).toBe(
      'tables.0.minutes.1 has 1 times, but there are 2 humidities.',
    );
    expect(twoSide({ relHumPct: [] })['tables.0.minutes.0']).toContain('no humidity is named');
    expect(twoSide({ tempC: [] })['tables.0.tempC']).toContain('a list of 1 to 40 numbers');
    expect(twoSide({ tempC: [50, 73, 90] })['tables.0.tempC.1']).toContain('73 °F is 22.8 °C');
  });

  it('is never longer where it is warmer', () => {
    const rows = [
      [50, 95],
      [30, 60],
      [31, 28],
    ];
    expect(twoSide({ minutes: rows })['tables.0.minutes.2.0']).toBe(
      'tables.0: touchDry at 30 °C and 50 % (31 min) is longer than touchDry at 20 °C and 50 % (30 min): it cannot take longer where it is warmer.',
    );
  });

  it('is never shorter in damper air for water, never longer for moisture cure, free for solvent', () => {
    const damperShorter = [
      [50, 45],
      [30, 28],
      [15, 12],
    ];
    expect(twoSide({ minutes: damperShorter })['tables.0.minutes.0.1']).toMatch(
      /is shorter than .*water does not leave sooner where the air is damper\.$/,
    );
    const open = { ...dry, event: 'openUntil' };
    const cure = told('polyurethane-one-part', {
      tables: [
        {
          ...open,
          tempC: [10, 20],
          minutes: [
            [40, 45],
            [22, 20],
          ],
        },
      ],
    });
    expect(cure['tables.0.minutes.0.1']).toMatch(/does not take longer where the air is damper\.$/);
    expect(cure).not.toHaveProperty(['tables.0.minutes.1.1']);
    const free = {
      ...dry,
      tempC: [20, 30],
      minutes: [
        [17, 16],
        [9, 10],
      ],
    };
    expect(told('contact-solvent', { tables: [free] })).toEqual({});
  });

  it('gives each time once, and none where nothing dries', () => {
    expect(told('deck-adhesive-two-side', { tables: [dry, dry] })['tables.1.event']).toContain(
      'tables.0 has that time already',
    );
    expect(told('seam-tape', { tables: [dry] })['tables.0.event']).toContain("mechanism is 'none'");
  });

  it('agrees with the time at reference conditions where those lie inside it', () => {
    const slow = [
      [90, 150],
      [60, 95],
      [25, 48],
    ];
    expect(twoSide({ minutes: slow })['touchDry']).toBe(
      'touchDry is 20 to 40 min, but tables.0 gives 60 min at the reference conditions (20 °C and 50 %): both are for the same weather and must agree.',
    );
    // Reference conditions outside the table: nothing to compare.
    expect(twoSide({ tempC: [10, 15, 18], minutes: slow })).toEqual({});
  });

  it('stands beside a time that brings the scatter', () => {
    expect(told('deck-adhesive-wet-lay', { tables: [dry] })['touchDry']).toContain(
      'touchDry is null, but tables.0 gives its times',
    );
  });

  it('of open time ends after that of touch dry at every point both know', () => {
    const open = {
      event: 'openUntil',
      tempC: [10, 20],
      relHumPct: [50, 80],
      minutes: [
        [120, 150],
        [75, 60],
      ],
      source: 'user',
    };
    const water = told('deck-adhesive-two-side', {
      tables: [
        dry,
        {
          ...open,
          minutes: [
            [49, 90],
            [48, 80],
          ],
        },
      ],
      openUntil: time(45, 50, 60),
    });
    expect(water['tables']).toBe(
      'tables: at 10 °C and 50 % openUntil (49 min) does not end after touchDry (50 min): the film would be past use before it is ready.',
    );
    const fine = {
      ...open,
      minutes: [
        [120, 150],
        [75, 90],
      ],
    };
    expect(told('deck-adhesive-two-side', { tables: [dry, fine] })).toEqual({});
  });

  it('any table that is monotone and fits is taken, and one bad cell is told (laws over random tables)', () => {
    const steps = fc.array(fc.double({ min: 0.5, max: 0.95, noNaN: true }), {
      minLength: 1,
      maxLength: 6,
    });
    fc.assert(
      fc.property(steps, fc.double({ min: 1, max: 2, noNaN: true }), (shrink, damp) => {
        let now = 90;
        const column = [now, ...shrink.map((share) => (now *= share))];
        const table = {
          ...dry,
          tempC: column.map((_, n) => n),
          minutes: column.map((v) => [v, v * damp]),
        };
        expect(twoSide(table)).toEqual({});
        const broken = table.minutes.map((row) => [...row]);
        broken[1] = [broken[0]![0]! * 1.01, broken[0]![1]! * 1.01];
        expect(Object.keys(twoSide({ ...table, minutes: broken }))).toContain(
          'tables.0.minutes.1.0',
        );
      }),
    );
  });
});

describe('times one after the other', () => {
  it('cream time is for a film closed wet and comes before the end of open time', () => {
    expect(told('contact-solvent', { closeFrom: time(1, 2, 3) })['closeFrom']).toContain(
      "but closing is 'touch-dry'",
    );
    expect(told('polyurethane-foam', { closeFrom: time(1, 7, 9) })['openUntil.typicalMin']).toBe(
      'openUntil.typicalMin (7 min) does not end after closeFrom.typicalMin (7 min): both count from coating, so the film would be past use before anything may be laid into it.',
    );
  });

  it('nobody walks on it before it can be closed, nor after it is cured through', () => {
    expect(told('contact-solvent', { footTraffic: time(5, 10, 30) })).toMatchObject({
      'footTraffic.lowMin': expect.stringContaining('walked on before the faces may meet'),
    });
    expect(told('polyurethane-foam', { footTraffic: time(300, 800, 900) })).toMatchObject({
      'fullCure.lowMin': expect.stringContaining('cured through before it may be walked on'),
    });
  });

  it('hours taken for minutes are caught: cured through in 24 min, open for 60', () => {
    expect(told('contact-solvent', { fullCure: time(24, 48, 72) })).toMatchObject({
      'fullCure.lowMin': expect.stringContaining('before its open time ends'),
    });
  });

  it('full cure may take a month, being touch dry may not', () => {
    expect(told('lap-sealant', { fullCure: time(4320, 20_000, 43_200) })).toEqual({});
    expect(told('lap-sealant', { fullCure: time(4320, 20_000, 43_201) })).toHaveProperty([
      'fullCure.highMin',
    ]);
    expect(told('contact-solvent', { touchDry: time(10, 20, 2881) })).toHaveProperty([
      'touchDry.highMin',
    ]);
  });
});

describe('a sheet', () => {
  const facts = bundled('sheet-plain')['sheet'] as Json;
  const plain = (change: Json) => told('sheet-plain', { sheet: { ...facts, ...change } });
  it('has its facts, and nothing else has', () => {
    const { sheet: _sheet, ...without } = bundled('sheet-plain');
    const parsed = parseProduct(without);
    expect(!parsed.ok && parsed.issues[0]?.message).toMatch(/^sheet is missing/);
    expect(told('seam-tape', { sheet: facts })['sheet']).toContain(
      "only a product that does 'sheet'",
    );
  });
  it('weighs low to high, is rolled in rising widths, relaxes no sooner in the cold', () => {
    expect(plain({ weightKgM2: { low: 2, high: 1, source: 'user' } })).toHaveProperty([
      'sheet.weightKgM2.low',
    ]);
    expect(plain({ rollWidthsM: { values: [6.1, 3.05], source: 'user' } })).toHaveProperty([
      'sheet.rollWidthsM.values.1',
    ]);
    expect(
      plain({ relaxColdMin: { value: 20, source: 'user' } })['sheet.relaxColdMin.value'],
    ).toContain('does not relax sooner');
  });
});

describe('coverage by substrate and material temperature', () => {
  const on = (substrate: string, value: number) =>
    told('contact-solvent', {
      coverage: {
        value: 2,
        unit: 'm2/L',
        source: 'user',
        on: { [substrate]: { value, source: 'user' } },
      },
    });
  it('are held to the same ranges, and a substrate nobody knows is named', () => {
    expect(on('concrete', 1.7)).toEqual({});
    expect(on('concrete', 20)['coverage.on.concrete.value']).toContain('0.5..12 m2/L');
    expect(on('sand', 2)['coverage.on.sand']).toMatch(
      /no such field; accepted are osb, .*fleece\.$/,
    );
    const low = { low: 27, high: 15, source: 'user' };
    expect(told('contact-solvent', { materialTempC: low })).toHaveProperty(['materialTempC.low']);
  });
});

describe('a printed figure beside ours', () => {
  const limit = (value: number, printed: unknown) =>
    told('contact-solvent', { limits: { airMinC: { value, source: 'user', printed } } });
  it('may be ours, rounded', () => {
    expect(limit(4.4, { value: 40, unit: '°F' })).toEqual({});
    const touchDry = { ...time(10, 15, 20), printed: { value: [10, 20], unit: 'min' } };
    expect(told('contact-solvent', { touchDry })).toEqual({});
  });
  it('that says something else is a contradiction', () => {
    expect(limit(5, { value: 40, unit: '°F' })['limits.airMinC']).toBe(
      'limits.airMinC is 5, but printed beside it is 40 °F, which is 4.444: one of the two is wrong.',
    );
    expect(limit(5, { value: 5, unit: 'bar' })['limits.airMinC.printed.unit']).toContain(
      'accepted are °C, °F',
    );
    const coverage = {
      value: 2,
      unit: 'm2/L',
      source: 'user',
      printed: { value: 300, unit: 'g/m2' },
    };
    expect(told('contact-solvent', { coverage })['coverage.printed.unit']).toContain(
      'do not compare',
    );
    const table = {
      ...dry,
      printed: {
        tempUnit: '°F',
        temps: [50, 68, 86],
        timeUnit: 'min',
        times: [
          [50, 95],
          [30, 60],
          [15, 29],
        ],
      },
    };
    expect(told('deck-adhesive-two-side', { tables: [table] })['tables.0.minutes']).toContain(
      '29 min',
    );
  });
});
