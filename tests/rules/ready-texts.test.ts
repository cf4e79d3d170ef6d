import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Booking,
  type Move,
  type TextAbout,
  type TextNews,
  textsFor,
} from '../../src/programme/index.ts';
import { booking } from '../fixtures/programme/plain-ask.ts';
import { fitsOneText } from '../fixtures/published/gsm-alphabet.ts';

/** Texts for client and crew: rules of docs/programme.md; length by the table of 3GPP TS 23.038. */

const ABOUT: TextAbout = {
  firm: 'Heron Roofs',
  site: 'Mill Lane school',
  client: 'Mrs Vance',
  zone: 'Europe/London',
};
const START_MS = Date.parse('2026-09-30T07:30+01:00');
const on = (dates: readonly string[], crewId = 'a'): Booking => ({
  ...booking('x', crewId, dates),
});
const move = (from: Booking | null, to: Booking | null): Move => ({
  ...({ jobId: 'x', kind: 'moved', filler: false, chanceBefore: 0.1, chanceAfter: 0.9 } as const),
  ...{ why: 'rain', forced: true, hardStop: false, needs: [], words: [], gain: 1, ifNot: '' },
  price: { change: 0, calls: 0, givenUp: 0, charges: 0, total: 0 },
  ...{ from, to, booking: to },
});
const MON = on(['2026-09-28']);
const WED = on(['2026-09-30']);
const said = (news: TextNews, about = ABOUT) =>
  textsFor(about, news).map(({ to, text }) => [to.who === 'crew' ? to.crewId : 'client', text]);

describe('what is said', () => {
  it('a day that moves is asked of client and crew', () => {
    expect(said({ kind: 'move', move: move(MON, WED), startMs: START_MS })).toEqual([
      [
        'client',
        'Hello Mrs Vance, may we lay your roof at Mill Lane school on Wednesday 30 September, start 07:30, instead of Monday 28 September? Heron Roofs',
      ],
      [
        'a',
        'Can you do Mill Lane school on Wednesday 30 September, start 07:30, instead of Monday 28 September? Heron Roofs',
      ],
    ]);
  });

  it('another crew on the same day is asked of both crews and troubles no client', () => {
    const other = move(WED, on(['2026-09-30'], 'b'));
    expect(said({ kind: 'move', move: other, startMs: START_MS })).toEqual([
      [
        'a',
        'Another crew would do Mill Lane school: you are not needed there on Wednesday 30 September. Is that all right? Heron Roofs',
      ],
      ['b', 'Can you do Mill Lane school on Wednesday 30 September, start 07:30? Heron Roofs'],
    ]);
  });

  it('confirmed, with times to follow where there are none yet', () => {
    const [client, crew] = said({ kind: 'confirmed', booking: WED, startMs: null });
    expect(client![1]).toBe(
      'Hello Mrs Vance, confirmed: we lay your roof at Mill Lane school on Wednesday 30 September, start time to follow, if the weather holds. Heron Roofs',
    );
    expect(crew![1]).toContain('Confirmed with the client: Mill Lane school on Wednesday');
  });

  it('called off, all days named', () => {
    const days = on(['2026-09-24', '2026-09-25', '2026-09-28', '2026-09-29', '2026-09-30']);
    const [client, crew] = said({ kind: 'called off', booking: days });
    expect(client![1]).toBe(
      'Called off: Mill Lane school on Thursday 24 September, Friday 25 September and Monday 28 September to Wednesday 30 September. We will ring you. Heron Roofs',
    );
    expect(crew![1]).toBe(
      'Called off: Mill Lane school on Thu 24 Sept, Fri 25 Sept and Mon 28 Sept to Wed 30 Sept. The office will tell you what you do instead. Heron Roofs',
    );
  });

  it('tomorrow, at the site, in the hour that comes with the new clock', () => {
    // Clocks go back on 25 October 2026 at 01:00 UTC (Directive 2000/84/EC).
    const news = (now: string): TextNews => ({
      kind: 'start tomorrow',
      booking: on(['2026-10-25', '2026-10-26']),
      startMs: Date.parse('2026-10-25T07:30Z'),
      nowMs: Date.parse(now),
    });
    expect(said(news('2026-10-24T22:59Z'))[0]![1]).toContain(
      'tomorrow, Sunday 25 October at 07:30.',
    );
    expect(() => said(news('2026-10-24T23:01Z'))).toThrow(/must be on 2026-10-26/);
    expect(() => said(news('2026-10-22T12:00Z'))).toThrow(/must have tomorrow, 2026-10-23/);
  });

  it('the second day goes on, a day east of UTC+12 is that of the site', () => {
    const news: TextNews = {
      kind: 'start tomorrow',
      booking: on(['2026-11-02', '2026-11-03']),
      startMs: Date.parse('2026-11-03T07:30+13:00'),
      nowMs: Date.parse('2026-11-02T17:00+13:00'),
    };
    const [client, crew] = said(news, { ...ABOUT, zone: 'Pacific/Tongatapu' });
    expect(client![1]).toContain('we go on with your roof at Mill Lane school tomorrow, Tuesday 3');
    expect(crew![1]).toMatch(/^Tomorrow, Tuesday 3 November: Mill Lane school again, start 07:30/);
  });

  it('work for nobody outside the firm is told to the crew only', () => {
    const told = said({ kind: 'called off', booking: WED }, { ...ABOUT, client: null });
    expect(told.map(([who]) => who)).toEqual(['a']);
  });

  it('a start on another day than the one named is refused, an empty name too', () => {
    const wrong: TextNews = { kind: 'confirmed', booking: MON, startMs: START_MS };
    expect(() => said(wrong)).toThrow(
      /must be on 2026-09-28; in Europe\/London it is on 2026-09-30/,
    );
    expect(() => said({ ...wrong, booking: WED }, { ...ABOUT, site: ' ' })).toThrow(/site \(" "\)/);
  });
});

describe('names give way', () => {
  const long = {
    ...ABOUT,
    site: 'Saint Bartholomew Primary School and Nursery, Annexe behind the Old Kitchen Garden',
    client: 'The Governors of the Saint Bartholomew Foundation',
  };
  it('at a word, never a cut word, nor one left hanging', () => {
    const [client, crew] = said({ kind: 'move', move: move(MON, WED), startMs: START_MS }, long);
    expect(client![1]).toMatch(/^Hello The Governors, may we lay your roof at Saint Bartholomew/);
    const kept = /at (.+) on Wed 30 Sept/.exec(client![1]!)![1]!;
    expect(`${long.site} `).toMatch(new RegExp(`^${kept}[ ,]`));
    expect(crew![1]).toContain(long.site);
  });

  it('accents go where that keeps the long message; another script keeps its letters in 70', () => {
    const news: TextNews = { kind: 'confirmed', booking: WED, startMs: START_MS };
    const [polish] = textsFor({ ...ABOUT, site: 'Szkoła – Młyn', client: 'Pani Żółta' }, news);
    expect(polish).toMatchObject({ alphabet: 'GSM' });
    expect(polish!.text).toContain(
      'Hello Pani Zolta, confirmed: we lay your roof at Szkola - Mlyn',
    );
    const [, greek] = textsFor({ ...ABOUT, site: 'Παλιό σχολείο' }, news);
    expect(greek).toMatchObject({ alphabet: 'UCS-2', most: 70 });
    expect(greek!.text).toBe('Confirmed: Παλιό σχολείο on Wednesday 30 September, start 07:30.');
  });
});

describe('whatever the names and days', () => {
  const name = fc
    .oneof(
      fc
        .array(fc.integer({ min: 0x20, max: 0x2fff }), { minLength: 1, maxLength: 120 })
        .map((codes) => String.fromCodePoint(...codes)),
      fc.string({ minLength: 1, maxLength: 120 }),
      fc.lorem({ maxCount: 25 }),
      fc.constantFrom(
        'x'.repeat(200),
        '€'.repeat(90),
        'Łódź',
        '学校'.repeat(40),
        '{[~]}'.repeat(20),
      ),
    )
    .map((text) => `N${text}`);
  const days = fc
    .uniqueArray(fc.integer({ min: 0, max: 27 }), { minLength: 1, maxLength: 12 })
    .map((offsets) =>
      offsets
        .sort((a, b) => a - b)
        .map((day) => new Date(Date.UTC(2026, 8, 16 + day)).toISOString().slice(0, 10)),
    );

  it('each text fits, names its first day to come and the time', () => {
    fc.assert(
      fc.property(name, name, name, days, days, (firm, site, client, was, will) => {
        const about = { ...ABOUT, firm, site, client };
        const startMs = Date.parse(`${will[0]}T07:30+01:00`);
        const to = on(will, 'b');
        const nowMs = startMs - 86_400_000;
        const shown = new RegExp(`(?<!\\d)${Number(will[0]!.slice(8))} (Sept|Oct)`);
        for (const news of [
          { kind: 'move', move: move(on(was), to), startMs },
          { kind: 'move', move: move(on(was, 'b'), to), startMs },
          { kind: 'move', move: move(null, to), startMs },
          { kind: 'confirmed', booking: to, startMs },
          { kind: 'called off', booking: to },
          { kind: 'start tomorrow', booking: to, startMs, nowMs },
        ] as const)
          for (const { to, text, units, most } of textsFor(about, news)) {
            expect(fitsOneText(text) && units <= most, text).toBe(true);
            if (to.who === 'crew' && to.crewId === 'a') continue;
            expect(text).toMatch(shown);
            if (news.kind !== 'called off') expect(text).toContain('07:30');
          }
      }),
      { numRuns: 25 },
    );
  });
});
