/** The stated rule for what is read and felt on site (docs/clock-pack.md), held against its own words and against a pack made anew with the reading. */
import { describe, expect, it } from 'vitest';
import { answerClockPack } from '../../src/answers/index.ts';
import { type PackShift, type PackTimes, readPack } from '../../src/products/index.ts';
import { packOf, randomQuestions } from '../fixtures/planner/clock-pack.ts';
import { earlyOn, jobOf } from '../fixtures/planner/job.ts';
import { HOUR_MS, MINUTE_MS, weatherOf } from '../fixtures/planner/weather.ts';

const DATE = '2026-05-13';
const ready = jobOf('parish-room');
const hourly = weatherOf({
  members: 7,
  airTempC: (h, m) => 13 + 0.6 * m + 4 * Math.sin(((h - 9) * Math.PI) / 12),
});
const pack = packOf(ready, hourly, DATE);
const NINE = Date.parse(`${DATE}T09:00:00Z`);
const DECK = 'deck' as const;
const CONTACT = 'contact-solvent';

function read(
  shifts: readonly PackShift[],
  coatedMs = NINE,
  productId = CONTACT,
  lastCoatedMs = coatedMs,
): PackTimes {
  const asked = { productId, surfaces: [DECK], coatedMs, lastCoatedMs, shifts };
  const answer = readPack(pack, asked);
  if (!answer.ok) throw new Error(answer.why);
  return answer;
}

const plain = read([]);
const midMs = plain.touchDry!.midMs!;
const film = (
  kind: 'touch-dry' | 'not-yet-dry',
  atMs: number,
  coatedMs = NINE,
  productId = CONTACT,
): PackShift => ({ id: `${kind}@${atMs}`, kind, atMs, coatedMs, productId, surface: DECK });
const surfaceAt = (atMs: number): number =>
  pack.surfaces.get(DECK)![Math.round((atMs - pack.startMs) / pack.stepMs)]! / 10;
const reading = (offK: number, atMs = NINE): PackShift => ({
  id: `surface@${atMs}`,
  kind: 'surface-temp',
  surface: DECK,
  atMs,
  tempC: surfaceAt(atMs) + offK,
});

describe('a finger test', () => {
  const sooner = Math.round(NINE + 0.75 * (midMs - NINE));

  it('overrules the reckoning for the film that was felt', () => {
    const felt = read([film('touch-dry', sooner)]);
    expect(felt.touchDry).toEqual({ earlyMs: sooner, midMs: sooner, lateMs: sooner });
    expect(felt.ready).toBe('by finger test');
    expect(felt.questions).toEqual([]);
  });

  it('makes later films of that product and surface as much quicker, and their open time shorter', () => {
    const later = NINE + HOUR_MS;
    const before = read([], later);
    const after = read([film('touch-dry', sooner)], later);
    const share = (after.touchDry!.midMs! - later) / (before.touchDry!.midMs! - later);
    // The weather hardly changes in the hour: three quarters of the time, to a few per cent.
    expect(share).toBeGreaterThan(0.72);
    expect(share).toBeLessThan(0.78);
    expect(after.usableUntil!.midMs!).toBeLessThan(before.usableUntil!.midMs!);
    expect(after.ready).toBe('by clock');
    const primed = read([film('touch-dry', sooner)], later, 'tape-primer');
    expect(primed).toEqual(read([], later, 'tape-primer'));
  });

  it('that is slow never lengthens open time beyond the slow end without it', () => {
    const late = Math.round(NINE + 1.9 * (midMs - NINE));
    for (const coatedMs of [NINE, NINE + HOUR_MS, NINE + 3 * HOUR_MS]) {
      const before = read([], coatedMs).usableUntil!;
      const after = read([film('touch-dry', late)], coatedMs).usableUntil!;
      for (const end of ['earlyMs', 'midMs', 'lateMs'] as const) {
        expect(after[end]!).toBeLessThanOrEqual(before.lateMs!);
      }
    }
  });

  it('never moves the end of an open time that is plain time', () => {
    const primer = pack.products.find(({ id }) => id === 'tape-primer')!;
    expect(primer.openEndsBy).toBe('time');
    const before = read([], NINE, 'tape-primer');
    const felt = film('touch-dry', before.touchDry!.midMs! + 5 * MINUTE_MS, NINE, 'tape-primer');
    expect(read([felt, reading(-8)], NINE, 'tape-primer').usableUntil).toEqual(before.usableUntil);
  });

  it('beyond half or twice the speed counts for half its weight and is asked about', () => {
    const quick = Math.round(NINE + 0.25 * (midMs - NINE));
    const later = NINE + HOUR_MS;
    const after = read([film('touch-dry', quick)], later);
    expect(after.questions).toHaveLength(1);
    expect(after.questions[0]).toMatch(/touch dry .* times as fast as reckoned\. Is that right\?/);
    const share = (after.touchDry!.midMs! - later) / (read([], later).touchDry!.midMs! - later);
    // A quarter of the time is four times the speed; the root of four is two.
    expect(share).toBeGreaterThan(0.45);
    expect(share).toBeLessThan(0.55);
  });

  it('that may only have been felt late makes its own film dry and holds no other film back', () => {
    const hoursLate = midMs + 5 * HOUR_MS;
    const own = read([film('touch-dry', hoursLate)]);
    expect(own.touchDry!.lateMs!).toBeLessThanOrEqual(hoursLate);
    expect(own.questions.join()).toMatch(/times as slowly as reckoned/);
    const next = read([film('touch-dry', hoursLate)], NINE + MINUTE_MS);
    expect(next.touchDry!.midMs!).toBeLessThan(hoursLate - HOUR_MS);
  });

  it('that finds a film not yet dry puts ready off, for it and for films coated after', () => {
    const late = plain.touchDry!.lateMs! + 10 * MINUTE_MS;
    const wet = read([film('not-yet-dry', late)]);
    expect(wet.touchDry).toEqual({ earlyMs: late, midMs: late, lateMs: late });
    expect(read([film('not-yet-dry', late)], NINE + MINUTE_MS).touchDry!.earlyMs).toBe(late);
    expect(read([film('not-yet-dry', late)], NINE - HOUR_MS)).toEqual(read([], NINE - HOUR_MS));
  });

  it('contradicted later is asked about, and not yet dry wins', () => {
    const both = read([film('touch-dry', sooner), film('not-yet-dry', sooner + 5 * MINUTE_MS)]);
    expect(both.touchDry!.midMs).toBe(sooner + 5 * MINUTE_MS);
    expect(both.questions.join()).toMatch(/Which is right\?/);
    expect(both.ready).not.toBe('by finger test');
  });

  it('of an earlier square metre does not make the last one dry', () => {
    const felt = read([film('touch-dry', sooner)], NINE, CONTACT, NINE + 20 * MINUTE_MS);
    expect(felt.ready).toBe('by clock');
    expect(felt.touchDry!.midMs!).toBeGreaterThan(sooner);
  });
});

describe('a reading', () => {
  it('of a warmer surface quickens, of a colder one slows, and fades over the day', () => {
    const share = (offK: number, coatedMs: number): number => {
      const at = read([reading(offK)], coatedMs).touchDry!.midMs! - coatedMs;
      return at / (read([], coatedMs).touchDry!.midMs! - coatedMs);
    };
    expect(share(5, NINE)).toBeLessThan(0.95);
    expect(share(-5, NINE)).toBeGreaterThan(1.05);
    const evening = NINE + 8 * HOUR_MS;
    expect(1 - share(5, evening)).toBeLessThan((1 - share(5, NINE)) / 2);
    const before = NINE - 3 * HOUR_MS;
    expect(read([reading(5)], before).usableUntil).toEqual(read([], before).usableUntil);
  });

  it('gives nearly what a pack made anew with it gives: within a tenth of the time', () => {
    for (const offK of [-6, -3, 3, 6]) {
      const shift = reading(offK);
      if (shift.kind !== 'surface-temp') throw new Error('no reading');
      const anew = answerClockPack(
        {
          ...ready,
          readings: [{ atMs: NINE, surfaceId: DECK, kind: 'surface-temp', value: shift.tempC }],
        },
        hourly,
        earlyOn(hourly),
        DATE,
      );
      if (!anew.ok) throw new Error('no pack');
      for (const after of [0, 1, 3]) {
        const coatedMs = NINE + after * HOUR_MS;
        const question = { productId: CONTACT, surfaces: [DECK], coatedMs, shifts: [shift] };
        const made = readPack(anew.pack, question);
        if (!made.ok) throw new Error(made.why);
        const wanted = made.touchDry!.midMs! - coatedMs;
        const got = read([shift], coatedMs).touchDry!.midMs! - coatedMs;
        expect(Math.abs(got / wanted - 1)).toBeLessThan(0.1);
        // The new pack knows the reading: it is not counted twice.
        expect(made).toEqual(readPack(anew.pack, { ...question, shifts: [] }));
      }
    }
  });

  it('that breaks a limit by itself withholds ready, and leaves the fast end to count on', () => {
    const limit = pack.products.find(({ id }) => id === CONTACT)!.limits.surfaceMinC!;
    const cold = read([reading(limit / 10 - 1 - surfaceAt(NINE))]);
    expect(plain.ready).toBe('by clock');
    expect(cold.ready).toBe('withheld');
    expect(cold.outside.map(({ flag }) => flag)).toContain('surfaceMinC');
    expect(cold.countUntilMs).toBe(cold.usableUntil!.earlyMs);
    expect(plain.countUntilMs).toBe(plain.usableUntil!.midMs);
  });

  it('far off the forecast is used and asked about', () => {
    expect(read([reading(20)]).questions.join()).toMatch(/20 K above the forecast\. Is it right\?/);
  });

  it('of damper air slows a water-borne film and leaves a solvent one alone', () => {
    const damp: PackShift = { id: 'rh', kind: 'rel-hum', atMs: NINE, relHumPct: 88 };
    expect(read([damp]).touchDry).toEqual(plain.touchDry);
    const wet = 'deck-adhesive-wet-lay';
    expect(read([damp], NINE, wet).usableUntil!.midMs!).toBeGreaterThan(
      read([], NINE, wet).usableUntil!.midMs!,
    );
  });

  it('from outside the time of the pack changes nothing and says so', () => {
    const early = { ...reading(5), atMs: pack.startMs - HOUR_MS };
    const answer = read([early]);
    expect(answer.notes).toEqual([
      'A reading from outside the time of this clock pack is not used.',
    ]);
    expect({ ...answer, notes: [] }).toEqual(plain);
  });
});

describe('undoing an entry', () => {
  it('gives the answer as if it had never been, whatever the order of the others', () => {
    for (const question of randomQuestions(pack, 300, 7)) {
      const entry = reading(4);
      const without = readPack(pack, question);
      readPack(pack, { ...question, shifts: [...question.shifts, entry] });
      expect(readPack(pack, question)).toEqual(without);
    }
  });
});

describe('whatever is read and felt', () => {
  it('a film coated later is never ready, or gone off, sooner', () => {
    let compared = 0;
    for (const question of randomQuestions(pack, 1500, 11)) {
      const sooner = readPack(pack, question);
      const moved = question.coatedMs + 7 * MINUTE_MS;
      const later = readPack(pack, {
        ...question,
        coatedMs: moved,
        lastCoatedMs: (question.lastCoatedMs ?? question.coatedMs) + 7 * MINUTE_MS,
      });
      if (!sooner.ok || !later.ok) continue;
      for (const name of ['touchDry', 'usableUntil', 'rainAfter'] as const) {
        for (const end of ['earlyMs', 'midMs', 'lateMs'] as const) {
          const [a, b] = [sooner[name]?.[end] ?? null, later[name]?.[end] ?? null];
          if (a === null) expect(b, `${name} ${end} of ${JSON.stringify(question)}`).toBeNull();
          else if (b !== null) expect(b).toBeGreaterThanOrEqual(a);
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(5000);
  });

  it('no finger test makes open time longer than its slow end without it', () => {
    for (const question of randomQuestions(pack, 1500, 12)) {
      const readings = question.shifts.filter(
        ({ kind }) => kind === 'surface-temp' || kind === 'rel-hum',
      );
      const felt = readPack(pack, question);
      const unfelt = readPack(pack, { ...question, shifts: readings });
      if (!felt.ok || !unfelt.ok || felt.usableUntil === null) continue;
      const most = unfelt.usableUntil?.lateMs ?? Number.POSITIVE_INFINITY;
      for (const ms of Object.values(felt.usableUntil)) {
        if (ms !== null) expect(ms).toBeLessThanOrEqual(most);
      }
    }
  });
});
