/** Where the firm's plan with the forecast service has no ensembles, the single forecast is taken. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { bestAtHand, type FeedClient } from '../../src/feed/index.ts';
import { MADE_NOTE, membersFromOne } from '../../src/weather/index.ts';
import { type FeedBench, feedBench, SITE, START_MS } from '../stand-in/bench-client.ts';
import type { Scenario } from '../stand-in/server.ts';

let bench: FeedBench;
beforeEach(async () => {
  bench = await feedBench();
});
afterEach(() => bench.close());

/** The service answers each endpoint in its own way, as it does by plan. */
function client(ensemble: Scenario, forecast: Scenario): Pick<FeedClient, 'ensemble' | 'forecast'> {
  const real = bench.client();
  return {
    ensemble: (wish) => {
      bench.standIn.scenario = ensemble;
      return real.ensemble(wish);
    },
    forecast: (wish) => {
      bench.standIn.scenario = forecast;
      return real.forecast(wish);
    },
  };
}

describe('the best forecast at hand', () => {
  it('is the ensemble where it comes, and nothing else is asked', async () => {
    const answer = await bestAtHand(client('well', 'plan'), SITE);
    expect(answer.ok && answer.weather.members).toHaveLength(51);
    expect(bench.standIn.forecasts().map(({ path }) => path)).toEqual(['/v1/ensemble']);
  });

  it('is the single forecast with its chance of rain where the plan has no ensembles', async () => {
    const answer = await bestAtHand(client('plan', 'well'), SITE);
    if (!answer.ok) throw new Error(answer.message);
    const { weather } = answer;
    expect(weather.members).toHaveLength(1);
    const asked = bench.standIn.forecasts().at(-1)!;
    expect(asked.path).toBe('/v1/forecast');
    expect(asked.query.get('hourly')).toMatch(/,precipitation_probability$/);
    expect(new Set(weather.rainChancePct)).toEqual(new Set([5, 70]));
    const made = membersFromOne(weather, { seed: 1, place: SITE });
    expect(made.members).toHaveLength(31);
    expect(made.source).toMatchObject({ madeFromOne: true, fetchedMs: START_MS, kind: 'live' });
    expect(made.source.notes).toContain(MADE_NOTE);
    // It was fetched just now: lead is known to count from then.
    expect(made.source.notes.join()).not.toMatch(/issue time not stated: errors/);
  });

  it('is none where both are refused: the plan is what is told', async () => {
    const answer = await bestAtHand(client('plan', 'plan'), SITE);
    expect(answer).toMatchObject({ ok: false, code: 'plan' });
  });

  it.each(['overloaded', 'key-wrong', 'limit-hour'] as const)(
    'is not the single one for passing or other trouble: %s',
    async (scenario) => {
      const answer = await bestAtHand(client(scenario, 'well'), SITE);
      expect(answer.ok).toBe(false);
      expect(bench.standIn.forecasts().every(({ path }) => path === '/v1/ensemble')).toBe(true);
    },
  );
});
