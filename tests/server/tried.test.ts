import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { daysAnswerSchema, workAnswerSchema } from '../../src/contract/index.ts';
import { dataOf, errorOf, NOW_MS, type TestServer, testServer } from './desk.ts';

/** The net hall: 240 m² in three laying days; its own costs are in its job file. */
const NET_HALL = '6f1a2c30-52b7-4d18-9a41-0c5e7d1f2c04';
const path = `/api/jobs/${NET_HALL}`;

/** So late in the demo's forecast that one working day, Monday 25 May, is left to look at. */
const LATE_MS = 11.5 * 24 * 3_600_000;

let server: TestServer;
let nowMs = NOW_MS;
beforeAll(async () => {
  server = await testServer({ now: () => nowMs });
  nowMs += LATE_MS;
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

describe('figures tried on a question', () => {
  it('costs decide the answer that was asked with them, and no other', async () => {
    const own = daysAnswerSchema.parse(dataOf(await server.get(`${path}/days?search=quick`)));
    expect(own.tried).toEqual({});
    expect(own.costs).toEqual(own.ownCosts);
    const query = 'search=quick&standDown=400&caughtOpen=400000';
    const tried = daysAnswerSchema.parse(dataOf(await server.get(`${path}/days?${query}`)));
    expect(tried.tried).toEqual({ standDown: 400, caughtOpen: 400_000 });
    expect(tried.costs).toMatchObject({ standDown: 400, caughtOpen: 400_000, shortened: 700 });
    expect(tried.ownCosts).toEqual(own.ownCosts);
    // Cost-loss rule: stand down above C / L (A. H. Murphy, Monthly Weather Review 105 (1977), 803-816).
    expect(tried.threshold).toBeCloseTo(0.001, 12);
    expect(tried.days.find(({ value }) => value !== null)?.value).toMatchObject({
      standDown: 400,
      loss: 400_000,
      threshold: 0.001,
    });
    const again = daysAnswerSchema.parse(dataOf(await server.get(`${path}/days?search=quick`)));
    expect(again).toEqual(own);
    const row = dataOf(await server.get(path)) as { job: { costs: object } };
    expect(row.job.costs).toMatchObject({ standDown: 1800, caughtOpen: 14_000 });
  });

  it('a bay gives the order of work, how far ahead and the way on of that bay', async () => {
    const work = await server.get(`${path}/work?day=2026-05-25&bay=60`);
    const answer = workAnswerSchema.parse(dataOf(work));
    expect(answer.tried).toEqual({ bay: 60 });
    expect(answer.bay).toMatchObject({ number: 1, of: 4 });
    expect(answer.bay.areaM2).toBeCloseTo(60, 6);
    expect(answer.day.way).toMatchObject({ bay: { of: 4 }, askBayM2: 60 });
    expect(answer.day.way?.smallerBay).toMatch(
      /^In 4 bays of 60 m² rather than 3 of 80 m²: one more laying day/,
    );
    for (const more of ['ahead?at=2026-05-25T10:20&bay=60', 'now?at=2026-05-25T10:20&bay=60']) {
      const reply = dataOf(await server.get(`${path}/${more}`)) as { bay: { of: number } };
      expect(reply.bay.of, more).toBe(4);
    }
  });

  it.each([
    [
      'days?standDown=abc&caughtOpen=-5&waitPerDay=1e9',
      /standDown is 'abc'; it must be a number from 0 to 10000000.*caughtOpen is '?-5'?; it must.*waitPerDay is '1e9'; it must/,
    ],
    [
      'days?standDown=500&calledOff=700',
      /calledOff is 700; it must not be above standDown, 500: calling off early costs no more/,
    ],
    ['days?shortened=', /shortened is ''; it must be a number from 0/],
    ['days?calledOff=NaN', /calledOff is 'NaN'/],
    ['days?search=slow', /search is 'slow'; it must be one of quick, full/],
    ['work?day=2026-05-25&bay=3', /bay is '?3'?; it must be a number from 4 to 20000/],
    ['work?day=2026-05-25&bay=241.5', /bay is 241.5; it must be from 4 to the whole roof, 240.0/],
    ['work?day=2026-05-25&bay=60&bay=80', /bay is given 2 times/],
    ['ahead?at=2026-05-25T10:20&bay=0x40', /bay is '0x40'; it must be a number/],
    ['ahead?at=2026-05-25T10:20&bay=900', /bay is 900; it must be from 4 to the whole roof/],
    ['now?at=2026-05-25T10:20&bay=900', /bay is 900; it must be from 4 to the whole roof/],
  ])('%s is refused in sentences', async (query, words) => {
    const reply = await server.get(`${path}/${query}`);
    expect([reply.status, errorOf(reply).message]).toEqual([400, expect.stringMatching(words)]);
  });
});
