/** What must hold of learning from a site log, whatever people log, take back and confirm. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SiteEvent } from '../../src/planner/index.ts';
import { withSpeed } from '../../src/products/index.ts';
import {
  effectiveLog,
  type FilmEntry,
  filmsOf,
  learn,
  measureFilm,
} from '../../src/record/index.ts';
import { productById } from '../accuracy/clock-products.ts';
import {
  entry,
  film,
  learnedFrom,
  NOW_MS,
  uuid,
  weatherAround,
} from '../fixtures/record/site-log.ts';

const GLUE = productById('contact-solvent');
/** Minutes a film may take, wild ones among them; the sheet says 10 to 25. */
const tookMin = fc.oneof(fc.integer({ min: 8, max: 40 }), fc.integer({ min: 1, max: 400 }));
const logs = fc
  .uniqueArray(fc.record({ day: fc.integer({ min: 0, max: 25 }), took: tookMin }), {
    selector: ({ day }) => day,
    maxLength: 6,
  })
  .map((films) => films.flatMap(({ day, took }) => film(GLUE, day, took)));
const undo = (n: number, undoes: string): SiteEvent =>
  entry(n, NOW_MS - 1000, { kind: 'undo', undoes });

describe('an entry taken back', () => {
  it('leaves no trace, to the last bit, whether it was likely or wild', () => {
    fc.assert(
      fc.property(logs, tookMin, (events, took) => {
        const before = learnedFrom(GLUE, events);
        const [coated, dry] = film(GLUE, 26, took) as [SiteEvent, SiteEvent];
        const after = learnedFrom(GLUE, [...events, coated, dry, undo(900, dry.id)]);
        expect(JSON.stringify(after)).toBe(JSON.stringify(before));
      }),
      { numRuns: 60 },
    );
  });

  it('is back when the undo itself is taken back', () => {
    const events = film(GLUE, 3, 14);
    const undone = [...events, undo(900, uuid(8))];
    expect(learnedFrom(GLUE, undone).used).toEqual([]);
    const back = [...undone, undo(901, uuid(900))];
    expect(JSON.stringify(learnedFrom(GLUE, back))).toBe(JSON.stringify(learnedFrom(GLUE, events)));
  });

  it('takes its film with it where it is the coating', () => {
    const events = [...film(GLUE, 3, 14), undo(900, uuid(7))];
    const { used, setAside, correction } = learnedFrom(GLUE, events);
    expect(used).toEqual([]);
    expect(setAside[0]!.why).toMatch(/no coating of this part/);
    expect(correction).toEqual({ factor: 1, spread: 1 });
  });

  it('stands undone as often as it is taken back', () => {
    const events = [...film(GLUE, 3, 14), undo(900, uuid(8)), undo(901, uuid(8))];
    expect(learnedFrom(GLUE, events).used).toEqual([]);
    expect(learnedFrom(GLUE, [...events, undo(902, uuid(901))]).used).toEqual([]);
  });
});

describe('the order in which entries arrive', () => {
  it('does not matter, to the last bit', () => {
    fc.assert(
      fc.property(
        logs.chain((events) =>
          fc.tuple(
            fc.constant(events),
            fc.shuffledSubarray(events, { minLength: events.length, maxLength: events.length }),
          ),
        ),
        ([events, shuffled]) => {
          expect(JSON.stringify(learnedFrom(GLUE, shuffled))).toBe(
            JSON.stringify(learnedFrom(GLUE, events)),
          );
        },
      ),
      { numRuns: 60 },
    );
  });

  it('does not matter between jobs either: each film is judged by those before it on site', () => {
    const entries = [1, 2, 3, 4].map((day): FilmEntry => {
      const [coated, dry] = film(GLUE, day, 4 + day / 4) as [SiteEvent, SiteEvent];
      const confirm = entry(900, NOW_MS - 2000, { kind: 'confirm', confirms: dry.id });
      const [found] = filmsOf(day === 1 ? [coated, dry, confirm] : [coated, dry]);
      const measured = measureFilm(GLUE, coated.atMs, dry.atMs, weatherAround(GLUE, coated.atMs));
      return { film: found!, measured, date: `${day}` };
    });
    const forwards = learn(GLUE, entries, NOW_MS)!;
    expect(forwards.used).toHaveLength(4);
    expect(learn(GLUE, [...entries].reverse(), NOW_MS)).toEqual(forwards);
  });

  it('is sorted by when it happened, then by when it was written down, then by id', () => {
    const note = (n: number, atMs: number, loggedMs: number): SiteEvent =>
      entry(n, atMs, { kind: 'note', text: 'x' }, loggedMs);
    const log = effectiveLog([note(3, 20, 20), note(2, 10, 30), note(1, 10, 20), note(0, 10, 20)]);
    expect(log.map(({ id }) => id)).toEqual([uuid(0), uuid(1), uuid(2), uuid(3)]);
  });
});

describe('a wild entry', () => {
  const usual = [...film(GLUE, 1, 16), ...film(GLUE, 2, 18)];
  const wild = film(GLUE, 3, 3);
  const confirm = entry(900, NOW_MS - 2000, { kind: 'confirm', confirms: wild[1]!.id });

  it('changes nothing and is asked about with both numbers', () => {
    const before = learnedFrom(GLUE, usual);
    const after = learnedFrom(GLUE, [...usual, ...wild]);
    expect(after.correction).toEqual(before.correction);
    expect(after.speed).toEqual(before.speed);
    expect(after.asked).toHaveLength(1);
    const { question, canBeConfirmed } = after.asked[0]!;
    expect(question).toMatch(/^Logged after 3 min; 1[0-4] to 2[0-5] min expected/);
    expect(canBeConfirmed).toBe(true);
  });

  it('counts once confirmed, and no more once the confirmation is taken back', () => {
    const asked = learnedFrom(GLUE, [...usual, ...wild]);
    const counted = learnedFrom(GLUE, [...usual, ...wild, confirm]);
    expect(counted.asked).toEqual([]);
    expect(counted.used).toHaveLength(3);
    expect(counted.correction.factor).toBeGreaterThan(asked.correction.factor * 1.1);
    const back = learnedFrom(GLUE, [...usual, ...wild, confirm, undo(901, confirm.id)]);
    expect(JSON.stringify(back)).toBe(JSON.stringify(asked));
  });

  it('on the slow side is asked about too', () => {
    const { asked, used } = learnedFrom(GLUE, film(GLUE, 3, 300));
    expect(used).toEqual([]);
    expect(asked[0]!.question).toMatch(/^Logged after 300 min; 10 to 25 min expected/);
  });

  it('is no longer wild where the firm’s films are all like that and the first was confirmed', () => {
    const fast = [1, 2, 3, 4, 5, 6].flatMap((day) => film(GLUE, day, 4));
    const first = entry(900, NOW_MS - 2000, { kind: 'confirm', confirms: uuid(4) });
    expect(learnedFrom(GLUE, fast).asked).toHaveLength(6);
    expect(learnedFrom(GLUE, [...fast, first]).asked).toHaveLength(0);
  });
});

describe('films that dry as the sheet says', () => {
  it('leave its typical time and narrow its range', () => {
    const events = [1, 2, 3, 4].flatMap((day) => film(GLUE, day, 17.5));
    const { correction, used } = learnedFrom(GLUE, events);
    // The rate at reference conditions is 1 to within what single precision carries.
    for (const { speed, expectedMin } of used) {
      expect(speed).toBeCloseTo(1, 4);
      expect(expectedMin).toBeCloseTo(17.5, 3);
    }
    expect(correction.factor).toBeCloseTo(1, 4);
    expect(correction.spread).toBeLessThan(0.95);
    const learned = withSpeed(GLUE, correction).touchDry!;
    expect(learned.typicalMin).toBeCloseTo(17.5, 3);
    expect(learned.lowMin).toBeGreaterThan(10);
    expect(learned.highMin).toBeLessThan(25);
  });

  it('twice as fast come out between the sheet and twice as fast', () => {
    const events = [1, 2, 3].flatMap((day) => film(GLUE, day, 8.75));
    const { correction, used } = learnedFrom(GLUE, events);
    expect(used[0]!.speed).toBeCloseTo(2, 4);
    expect(correction.factor).toBeGreaterThan(1.2);
    expect(correction.factor).toBeLessThan(2);
  });
});
