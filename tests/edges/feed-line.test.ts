import { Agent } from 'undici';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openLine } from '../../src/feed/line.ts';
import { START_MS } from '../stand-in/bench-client.ts';
import { type StandIn, startStandIn } from '../stand-in/server.ts';

/** What requests cost: refusals for limits nothing, other failures one call (documented behaviour). */

let standIn: StandIn;
const dispatcher = new Agent();
beforeEach(async () => {
  standIn = await startStandIn(START_MS);
});
afterEach(() => standIn.close());

const freeLine = () =>
  openLine({
    dispatcher,
    apiKey: null,
    plan: 'free',
    timeouts: { headersMs: 400, bodyMs: 400, totalMs: 800 },
    now: () => START_MS,
    sleep: async () => {},
    random: () => 0,
  });
const url = () =>
  new URL(`${standIn.url}/v1/forecast?latitude=50&longitude=5&hourly=precipitation`);

describe('the free line', () => {
  it('counts a refusal for limits as nothing', async () => {
    const line = freeLine();
    expect((await line.get(url(), 599)).ok).toBe(true);
    standIn.scenario = 'too-many';
    expect(await line.get(url(), 1)).toMatchObject({ ok: false, code: 'busy' });
    standIn.scenario = 'well';
    expect((await line.get(url(), 1)).ok).toBe(true);
    expect(await line.get(url(), 1)).toMatchObject({
      code: 'limit-minute',
      retryAtMs: START_MS + 60_000,
    });
    expect(standIn.seen).toHaveLength(3);
  });
  it('counts any other failure as one call', async () => {
    const line = freeLine();
    await line.get(url(), 599);
    standIn.scenario = 'no-data';
    expect(await line.get(url(), 300)).toMatchObject({ ok: false, code: 'limit-minute' });
    expect(await line.get(url(), 1)).toMatchObject({ ok: false, code: 'bad-request' });
    expect(await line.get(url(), 1)).toMatchObject({ code: 'limit-minute' });
  });
});
