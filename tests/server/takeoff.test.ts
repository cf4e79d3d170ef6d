import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { roofDrawingAnswerSchema, takeoffAnswerSchema } from '../../src/contract/index.ts';
import { DEMO_JOB, dataOf, errorOf, realJob, type TestServer, testServer } from './desk.ts';

/* What the routes promise stands in docs/http-api.md; there is no outside source for it. */

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

const kept = async () => dataOf(await server.get('/api/jobs')) as { jobs: unknown[] };
const asked = async (job: unknown) => await server.send('POST', '/api/takeoff', job);

describe('the take-off of a kept job', () => {
  it('needs no forecast, and adds up', async () => {
    const answer = takeoffAnswerSchema.parse(
      dataOf(await server.get(`/api/jobs/${DEMO_JOB}/takeoff`)),
    );
    expect(answer.stages.map(({ number }) => number)).toEqual(
      Array.from({ length: 19 }, (_, i) => i + 1),
    );
    const inDays = answer.days.reduce((sum, day) => sum + day.areaM2, 0);
    expect(inDays).toBeGreaterThan(answer.roof.surfaceM2 - 1e-6);
    expect(answer.sheets.boughtM2).toBeGreaterThanOrEqual(answer.sheets.cutM2);
    expect(answer.drawing).toMatch(/^<svg /);
    for (const list of Object.values(answer.choices))
      expect(list.filter(({ chosen }) => chosen)).toHaveLength(1);
  });

  it('is not there for a job that is not', async () => {
    const nobody = '00000000-0000-4000-8000-000000000000';
    expect((await server.get(`/api/jobs/${nobody}/takeoff`)).status).toBe(404);
    expect((await server.get('/api/jobs/x/takeoff')).status).toBe(400);
  });
});

describe('the take-off of a job that is thought about', () => {
  it('answers and keeps nothing', async () => {
    const before = await kept();
    const answer = takeoffAnswerSchema.parse(dataOf(await asked(realJob())));
    expect(answer.job.name).toBe(realJob()['name']);
    expect(answer.sheets.change).toBeNull();
    expect(await kept()).toEqual(before);
  });

  it('says what turned sheets change', async () => {
    const turned = {
      ...realJob(),
      layout: { choices: { roof: { rollsRunDeg: 0 } } },
    };
    const [up, across] = await Promise.all(
      [turned, { ...turned, layout: { choices: { roof: { rollsRunDeg: 90 } } } }].map(async (job) =>
        takeoffAnswerSchema.parse(dataOf(await asked(job))),
      ),
    );
    expect(up!.sheets.change).not.toBeNull();
    expect(up!.sheets.rollsRunDeg).not.toEqual(across!.sheets.rollsRunDeg);
  });

  it('refuses products that do not fit, in the words it lists them with', async () => {
    const { choices } = takeoffAnswerSchema.parse(
      dataOf(
        await asked({
          ...realJob(),
          buildUp: { ...(realJob()['buildUp'] as object), sheet: 'fleece' },
        }).then(async (reply) => (reply.status === 200 ? reply : await asked(realJob()))),
      ),
    );
    for (const list of Object.values(choices))
      for (const { chosen, refused } of list) if (chosen) expect(refused).toEqual([]);
  });

  it.each([
    [{ roof: { areas: [] } }, 'areas'],
    [
      {
        roof: {
          areas: [
            {
              id: 'bow',
              shape: {
                kind: 'polygon',
                points: [
                  [0, 0],
                  [4, 4],
                  [4, 0],
                  [0, 4],
                ],
              },
              edges: [{ kind: 'verge' }, { kind: 'verge' }, { kind: 'verge' }, { kind: 'verge' }],
            },
          ],
        },
      },
      'cross or touch',
    ],
    [{ rates: { strip: 'fast' } }, 'strip'],
    [{ bayAreaM2: 0 }, 'bayAreaM2'],
    [{ layout: { choices: { attic: { rollsRunDeg: 0 } } } }, "'attic'"],
    [{ layout: { choices: { roof: { shiftM: 19 } } } }, 'shiftM'],
    [{ layout: { sheetWidthsM: [3, 3] } }, 'roll widths'],
  ])('tells what is wrong in a sentence: %j', async (change, words) => {
    const reply = await asked({ ...realJob(), ...change });
    expect(reply.status).toBe(400);
    expect(errorOf(reply).message).toContain(words);
  });
});

describe('a roof drawing in the making', () => {
  const area = (edges: unknown[], points: unknown[]) => ({
    areas: [{ id: 'a', shape: { kind: 'polygon', points }, edges }],
  });
  const verge = { kind: 'verge' };
  const square = [
    [0, 0],
    [4, 0],
    [4, 4],
    [0, 4],
  ];

  it('is drawn with each fault at its place, and in a sentence', async () => {
    const reply = await server.send(
      'POST',
      '/api/roof-drawing',
      area([verge, verge, {}, verge], square),
    );
    const { drawing, issues } = roofDrawingAnswerSchema.parse(dataOf(reply));
    const untyped = issues.find(({ message }) => message.includes('has no type'))!;
    // The third edge runs from (4, 4) to (0, 4): its middle.
    expect(untyped).toMatchObject({ level: 'refuse', at: [2, 4] });
    expect(drawing).toContain('has no type');
  });

  it('is drawn where it crosses itself, too', async () => {
    const bow = [
      [0, 0],
      [4, 4],
      [4, 0],
      [0, 4],
    ];
    const reply = await server.send(
      'POST',
      '/api/roof-drawing',
      area([verge, verge, verge, verge], bow),
    );
    const { drawing, issues } = roofDrawingAnswerSchema.parse(dataOf(reply));
    expect(drawing).toMatch(/^<svg /);
    // Two diagonals of a 4 m square meet in its middle.
    expect(issues[0]?.at).toEqual([2, 2]);
  });

  it('without a corner is no drawing, and no fault of ours', async () => {
    const { drawing, issues } = roofDrawingAnswerSchema.parse(
      dataOf(await server.send('POST', '/api/roof-drawing', area([], []))),
    );
    expect(drawing).toBeNull();
    expect(issues.length).toBeGreaterThan(0);
  });
});
