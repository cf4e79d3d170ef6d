import { describe, expect, it } from 'vitest';
import { answerNow, runThrough } from '../../src/answers/index.ts';
import {
  adviseNow,
  countOutcomes,
  forecastEndWords,
  optionFor,
  planFor,
  searchDays,
  simulateDay,
  verdictSentence,
} from '../../src/planner/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import { planOn, preparedFor, type Setting, samePlan } from '../fixtures/planner/job.ts';
import { upTo } from '../fixtures/planner/now.ts';
import { HOUR_MS, MINUTE_MS, weatherOf } from '../fixtures/planner/weather.ts';

/** A forecast that ends in the middle of a laying day: what lies beyond is neither dry nor wet. */

const DATE = '2026-05-13';
const DAY = localDayOn(DATE, 'Europe/Dublin');
const MEMBERS = 4;
/** Rain in one of four from four in the afternoon (UTC), and a warm day in one. */
const setting = (hours: number): Setting => ({
  job: 'boat-store',
  weather: {
    members: MEMBERS,
    hours,
    rainMm: (h, m) => (m === 1 && h > 16 ? 1 : 0),
    airTempC: (h, m) => 14 + (m === 2 ? 5 : 0) + 4 * Math.sin(((h - 9) * Math.PI) / 12),
  },
});
/** Ends at every hour of the crew's day and now and then of the night after it, longest first. */
const ENDS = [42, 36, 30, 24, ...Array.from({ length: 14 }, (_, n) => 18 - n)];
/** So that a forecast also ends within the last task. */
const STARTS_MIN = [0, 15, 30, 45];
const adhesiveFree = {
  buildUp: { products: { ...planOn().prepared.job.buildUp.products, field: 'contact-solvent' } },
};

describe.each([
  ['a water-borne adhesive, whose night counts', {}],
  ['an adhesive that minds no night', adhesiveFree],
])('a forecast cut shorter hour by hour, %s', (_name, changes) => {
  const cut = (hours: number): Setting => ({ ...setting(hours), changes });
  const whole = planOn({ ...cut(72), date: DATE });

  it('never raises how many finish of one committed plan and start', () => {
    const before = STARTS_MIN.map(() => Number.POSITIVE_INFINITY);
    let [most, least] = [0, MEMBERS];
    for (const hours of [72, ...ENDS]) {
      const plan = samePlan(whole, cut(hours));
      const endMs = plan.prepared.grid.startMs + hours * HOUR_MS;
      for (const [n, minutes] of STARTS_MIN.entries()) {
        const startMs = plan.shift.startMs + minutes * MINUTE_MS;
        const runs = Array.from({ length: MEMBERS }, (_, m) => simulateDay(plan, m, { startMs }));
        const { finished, unknown, ...others } = countOutcomes(runs);
        expect(finished, `${hours} h, start ${minutes}`).toBeLessThanOrEqual(before[n]!);
        expect(finished + unknown + Object.values(others).reduce((a, b) => a + b)).toBe(MEMBERS);
        for (const run of runs) {
          // Nothing is said to be dry that nobody has forecast.
          if (run.rainSafeMs !== null) expect(run.rainSafeMs).toBeLessThanOrEqual(endMs);
          if (run.kind === 'finished') expect(run.endMs).toBeLessThanOrEqual(endMs);
        }
        before[n] = finished;
        most = Math.max(most, finished);
        least = Math.min(least, finished);
      }
    }
    // Else nothing was looked at.
    expect([most > 0, least]).toEqual([true, 0]);
  });

  it('never raises how many finish of the best plan and start found anew', () => {
    let before = Number.POSITIVE_INFINITY;
    for (const hours of [72, ...ENDS.filter((h) => h % 3 === 0)]) {
      const option = optionFor(preparedFor(cut(hours)), DAY, 'quick');
      const finished = option?.outcomes.finished ?? 0;
      expect(finished, `${hours} h`).toBeLessThanOrEqual(before);
      if (option !== null && option.verdict !== 'unknown')
        expect(option.chance.of).toBe(MEMBERS - option.outcomes.unknown);
      before = finished;
    }
    expect(before).toBe(0);
  });
});

describe('the sentence of a day in which the forecast ends', () => {
  const seed = (hours: number): Setting => ({
    ...setting(hours),
    job: 'seed-workshop',
    changes: { latest: null },
  });
  const option = (hours: number) => optionFor(preparedFor(seed(hours)), DAY, 'quick')!;

  it('says when, in time of the site, and what of the work lies beyond', () => {
    // Stamps are UTC; Dublin is an hour ahead in May.
    const words = verdictSentence(option(12));
    expect(words).toContain('The forecast ends on Wednesday 13 May at 13:00 site time');
    expect(words).toMatch(/edges and upstands.* lie beyond it/);
    expect(words).not.toMatch(/setting up and setting out[^.]* lie/);
    expect(words).toContain('What is not known is not taken for dry.');
  });

  it('names less the longer the forecast reaches, and nothing once it reaches over the day', () => {
    const named = (hours: number) =>
      (forecastEndWords(option(hours))?.split(';')[1] ?? '').split(',').length;
    expect(named(16)).toBeLessThanOrEqual(named(12));
    expect(forecastEndWords(option(12))).not.toBeNull();
    expect(forecastEndWords(option(48))).toBeNull();
  });

  it('says of a water-borne film that its night lies beyond, though all of the work does not', () => {
    // The work is over by the evening of the 13th; the adhesive asks for 24 h above 5 °C.
    const night = optionFor(preparedFor({ ...setting(30), changes: {} }), DAY, 'quick')!;
    expect(forecastEndWords(night)).toMatch(
      /Thursday 14 May at 07:00 site time; the night after, which the adhesive minds, lies beyond it/,
    );
  });

  it('counts the forecasts where only some of them end', () => {
    const gap = (h: number, m: number) => (m < 2 && h > 12 ? Number.NaN : 15);
    const some = optionFor(
      preparedFor({ job: 'seed-workshop', weather: { members: 4, hours: 40, airTempC: gap } }),
      DAY,
      'quick',
    )!;
    expect(forecastEndWords(some)).toMatch(
      /^2 of 4 forecasts end on Wednesday 13 May at 13:00 site time/,
    );
    expect(some.outcomes.unknown).toBe(2);
  });

  it('ranks no such day among the days to choose from', () => {
    const found = runThrough(searchDays(preparedFor(seed(12)), 'quick'));
    expect(found.ranked).toEqual([]);
    expect(found.options[0]!.verdict).toBe('unknown');
  });
});

describe('sections sized under a forecast that ends within the day', () => {
  it('learn as little of a film not seen to its end as of one not seen at all', () => {
    const size = (hours: number): number =>
      planFor(preparedFor({ ...setting(hours), job: 'net-hall' }), DAY).work.sectionM2;
    // The field is coated from about eight on: at seven nothing is known of it, at eight only its start.
    expect(size(8)).toBe(size(7));
  });
});

describe('mid-job under a forecast that ends within the day', () => {
  const at = DAY.startMs + 11 * HOUR_MS;
  const advise = (weather: Setting['weather']) => {
    const plan = planOn({ job: 'seed-workshop', weather: weather!, date: DATE });
    const found = upTo(plan, 'field-1-1-close', at);
    return { plan, advice: adviseNow(plan, found, at, { thunderMs: null, rainInMin: null }) };
  };

  it('has all that is open closed by the end of what is known', () => {
    const { advice } = advise({ members: 4, hours: 14 });
    const endMs = DAY.startMs + 15 * HOUR_MS;
    expect(advice.closeUpByMs).toBe(endMs - advice.closeUp.minutes * MINUTE_MS);
    const { advice: whole, plan } = advise({ members: 4, hours: 48 });
    expect(whole.closeUpByMs).toBe(plan.shift.endMs - whole.closeUp.minutes * MINUTE_MS);
  });

  it('lets forecasts that have ended say nothing against the rain of those that go on', () => {
    // Of ten, eight end at noon; of the two that go on one has rain from one o'clock on (UTC).
    const { advice } = advise({
      members: 10,
      hours: 40,
      airTempC: (h, m) => (m < 8 && h > 12 ? Number.NaN : 15),
      rainMm: (h, m) => (m === 9 && h > 13 ? 1 : 0),
    });
    expect(advice.foreseenRainMs).toBe(DAY.startMs + 14 * HOUR_MS);
  });

  it('is told of in the answer, with what lies beyond', () => {
    const { plan } = advise({ members: 4, hours: 14 });
    const { job, products } = plan.prepared;
    const hourly = weatherOf({ members: 4, hours: 14 });
    const result = answerNow({
      ready: { job, products },
      hourly,
      nowMs: at,
      atMs: at,
      work: { kind: 'log', events: [], thunderMs: null, rainInMin: null },
    });
    if (!result.ok) throw new Error(JSON.stringify(result.issues));
    expect(result.answer.notes.join(' ')).toContain(
      'The forecast ends on Wednesday 13 May at 15:00 site time',
    );
  });
});
