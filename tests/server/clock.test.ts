import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { clockAnswerSchema } from '../../src/contract/index.ts';
import { DEMO_JOB, dataOf, errorOf, type TestServer, testServer } from './desk.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(async () => {
  expect(server.faults).toEqual([]);
  await server.close();
});

const ask = `/api/clock?product=contact-solvent&coated=2026-05-14T12:00&job=${DEMO_JOB}`;
const answerOf = async (more: string) =>
  clockAnswerSchema.parse(dataOf(await server.get(`${ask}${more}`)));

describe('the clock of a joint', () => {
  it('from first to last square metre, on the faces named', async () => {
    const answer = await answerOf('&until=2026-05-14T12:05&faces=deck,sheet');
    expect(answer.coatedUntilMs - answer.coatedMs).toBe(5 * 60_000);
    expect(answer.faces.map(({ face }) => face)).toEqual(['deck', 'sheet']);
    expect(await answerOf('&until=2026-05-14T12:05')).toEqual(answer);
    const { touchDry } = await answerOf('');
    expect(answer.touchDry!.midMs!).toBeGreaterThan(touchDry!.midMs!);
  });

  it('under numbers too', async () => {
    const reply = await server.get(
      '/api/clock?product=contact-low-voc&coated=2026-05-14T09:00&until=2026-05-14T10:00&air=20&rh=50&wind=1',
    );
    expect(clockAnswerSchema.parse(dataOf(reply)).window).toMatchObject({ kind: 'none' });
  });

  it.each([
    ['&until=2026-05-14T11:00', /until is before coated/],
    ['&until=later', /until 'later' is not a date and time/],
    ['&faces=roof', /faces is 'roof'; it must be one or more of deck, sheet/],
    ['&faces=deck,deck', /each face may be named once/],
    ['&closed=2026-05-14T11:00', /closed is before the last square metre/],
  ])('%s is refused with the sentence why', async (more, why) => {
    const reply = await server.get(`${ask}${more}`);
    expect(reply.status).toBe(400);
    expect(errorOf(reply).message).toMatch(why);
  });
});
