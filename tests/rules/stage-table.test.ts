import { describe, expect, it } from 'vitest';
import { stageTable } from '../../src/stages/index.ts';
import { buildUpWith, GARAGE, HALL, PRODUCTS } from './stages-examples.ts';

/** Numbers, flags and order of the nineteen stages: the trade's own list, common practice. */

const question = {
  roof: HALL,
  buildUp: buildUpWith(PRODUCTS),
  products: PRODUCTS,
  crewPeople: 3,
  bayAreaM2: 60,
  usableMin: 10,
} as const;

function table(change: Partial<Parameters<typeof stageTable>[0]> = {}) {
  const answer = stageTable({ ...question, ...change });
  if (!answer.ok) throw new Error(answer.issues.map(({ message }) => message).join(' '));
  return answer;
}

describe('the stages of a job', () => {
  it('are the nineteen of the trade, in order', () => {
    expect(table().rows.map(({ number }) => number)).toEqual(
      Array.from({ length: 19 }, (_, i) => i + 1),
    );
  });

  it('hold all work of all days, and nothing twice', () => {
    const { rows, days } = table();
    const listed = days.flatMap((day) => day.activities).reduce((sum, a) => sum + a.workerMin, 0);
    const outside = rows
      .filter(({ number }) => number === 1 || number === 18)
      .reduce((sum, row) => sum + row.workerMin, 0);
    const total = rows.reduce((sum, row) => sum + row.workerMin, 0);
    // Handing over takes 60 min of one person (from memory) and stands in row 19 with the look-over.
    expect(total - outside - 60).toBeCloseTo(listed, 6);
  });

  it('say why a stage is not part of the job', () => {
    const { rows } = table({ roof: GARAGE, bayAreaM2: 1000 });
    expect(rows[4]).toMatchObject({ applies: false, whyNot: 'No insulation on this job.' });
    expect(rows[12]).toMatchObject({
      applies: false,
      whyNot: 'One sheet covers the roof: no laps.',
    });
    for (const row of rows) expect(row.applies).toBe(row.whyNot === '');
  });

  it('carry the flags of the trade', () => {
    const { rows } = table();
    const flags = (number: number) => {
      const { neverInterrupt, noReturn, beforeRain } = rows[number - 1]!;
      return [neverInterrupt, noReturn, beforeRain];
    };
    // Strip: never interrupt, irreversible, finish before rain. Field adhesive and edges as well.
    expect(flags(3)).toEqual([true, true, true]);
    expect(flags(10)).toEqual([true, true, true]);
    expect(flags(14)).toEqual([true, true, true]);
    // Survey and access: none of them.
    expect(flags(1)).toEqual([false, false, false]);
    expect(flags(2)).toEqual([false, false, false]);
    // Sealant comes after rain-safe.
    expect(flags(17)[2]).toBe(false);
    // Safe stops: after 1 and 2, after 4 under sheeting; never straight after stripping.
    for (const number of [1, 2, 4]) expect(rows[number - 1]?.safeStopAfter).toBe(true);
    expect(rows[2]?.safeStopAfter).toBe(false);
  });

  it('tell the waits between coating and closing from the sheets', () => {
    const { rows } = table();
    // The wet-laid adhesive of the examples: closed at once, open for 10 min; the contact one 20 to 80.
    expect(rows[9]?.lag).toMatchObject({ leastMin: 0, mostMin: 10 });
    expect(rows[13]?.lag).toMatchObject({ leastMin: 20, mostMin: 80 });
  });

  it('name the rates they are reckoned from, with their source', () => {
    for (const row of table().rows.filter(({ applies }) => applies)) {
      for (const { figures } of row.from) expect(figures.source).toMatch(/common practice|memory/);
    }
    expect(table().rows[9]?.from.map(({ rate }) => rate)).toEqual(['fieldWet']);
  });

  it('refuse what a day refuses', () => {
    expect(stageTable({ ...question, crewPeople: 1 })).toMatchObject({
      ok: false,
      issues: [{ path: 'crew.people' }],
    });
  });
});
