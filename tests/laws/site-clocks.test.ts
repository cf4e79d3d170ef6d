import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SiteEvent } from '../../src/planner/index.ts';
import { askFilm, type ClockPack, readPack, siteClocks } from '../../src/products/index.ts';
import { effectiveLog, filmsOf } from '../../src/record/index.ts';
import { packOf } from '../fixtures/planner/clock-pack.ts';
import { jobOf } from '../fixtures/planner/job.ts';
import { MINUTE_MS, weatherOf } from '../fixtures/planner/weather.ts';

/** A site log read by a clock pack: films, finger tests, and undoing them. Rules: docs/clock-pack.md. */

const GLUE = 'contact-solvent';
const pack: ClockPack = packOf(
  jobOf('seed-workshop'),
  weatherOf({ members: 5, airTempC: (h, m) => 14 + m + 5 * Math.sin(((h - 9) * Math.PI) / 12) }),
  '2026-05-13',
);
const TEN_MS = Date.parse('2026-05-13T10:00:00Z');
const coat = { surfaces: ['deck', 'folded-sheet'] as const, spreadMs: 7 * MINUTE_MS };
const coatOf = (activityId: string) => (activityId.startsWith('part-') ? coat : null);

const base = (n: number, atMs: number) => ({
  id: `e${n}`,
  jobId: 'j',
  atMs,
  loggedMs: TEN_MS + n,
  actorId: 'foreman',
});
const coated = (n: number, atMs: number, part = 'part-1'): SiteEvent => ({
  ...base(n, atMs),
  kind: 'coated',
  activityId: part,
  productId: GLUE,
  areaM2: null,
});
const dry = (n: number, atMs: number, part = 'part-1'): SiteEvent => ({
  ...base(n, atMs),
  kind: 'touch-dry',
  activityId: part,
});
const undo = (n: number, undoes: number): SiteEvent => ({
  ...base(n, TEN_MS + n),
  kind: 'undo',
  undoes: `e${undoes}`,
});
const timesOf = (log: readonly SiteEvent[]) => {
  const { films, shifts } = siteClocks(pack, log, coatOf);
  return films.map((film) => askFilm(pack, film, shifts));
};

/** Logs by chance: coatings, finger tests, closings, undos of what came before. */
const logs = fc
  .array(
    fc.record({
      kind: fc.constantFrom('coated', 'touch-dry', 'closed', 'undo'),
      minute: fc.integer({ min: 0, max: 180 }),
      part: fc.constantFrom('part-1', 'part-2', 'gone'),
      of: fc.nat(),
    }),
    { maxLength: 12 },
  )
  .map((drawn) =>
    drawn.map(({ kind, minute, part, of }, n): SiteEvent => {
      const atMs = TEN_MS + minute * MINUTE_MS;
      if (kind === 'coated') return coated(n, atMs, part);
      const back = n > 0 ? of % n : null;
      if (kind === 'undo' && back !== null && drawn[back]?.kind !== 'undo') return undo(n, back);
      if (kind === 'closed') return { ...base(n, atMs), kind, activityId: part };
      return dry(n, atMs, part);
    }),
  );

describe('a site log read by a clock pack', () => {
  it('pairs coatings and finger tests as learning does, whatever the log', () => {
    fc.assert(
      fc.property(logs, (log) => {
        const learned = filmsOf(effectiveLog(log)).flatMap((film) =>
          film.kind === 'film' ? [[film.coated.id, film.dry.id]] : [],
        );
        const { films } = siteClocks(pack, log, coatOf);
        const here = films.flatMap(({ id, dry }) => (dry === null ? [] : [[id, dry.id]]));
        expect([...here].sort()).toEqual([...learned].sort());
      }),
    );
  });

  it('answers as if an undone entry had never been made, to the millisecond', () => {
    fc.assert(
      fc.property(logs, fc.nat(), (log, pick) => {
        const free = log.filter(
          ({ id, kind }) =>
            kind !== 'undo' && !log.some((e) => e.kind === 'undo' && e.undoes === id),
        );
        const gone = free[pick % Math.max(1, free.length)];
        if (gone === undefined) return;
        const undone: SiteEvent = { ...base(99, TEN_MS), kind: 'undo', undoes: gone.id };
        const without = log.filter((event) => event !== gone);
        expect(timesOf([...log, undone])).toEqual(timesOf(without));
      }),
    );
  });

  it('counts from the first square metre to the end of open time, from the last to touch dry', () => {
    const [times] = timesOf([coated(1, TEN_MS)]);
    const asked = readPack(pack, {
      productId: GLUE,
      surfaces: coat.surfaces,
      coatedMs: TEN_MS - coat.spreadMs,
      lastCoatedMs: TEN_MS,
      shifts: [],
    });
    expect(times).toEqual(asked);
  });

  it('never lets a finger test on a joint slow down the face that dries first', () => {
    const [plain] = timesOf([coated(1, TEN_MS)]);
    if (!plain?.ok) throw new Error('no clock');
    const face = (times: typeof plain, surface: string) =>
      times.faces.find((each) => each.surface === surface)!;
    const quick = [...plain.faces].sort((a, b) => a.touchDry!.midMs! - b.touchDry!.midMs!)[0]!;
    const slow = plain.faces.find((each) => each !== quick)!;
    expect(slow.touchDry!.midMs).toBeGreaterThan(quick.touchDry!.midMs!);
    const lateMs = Math.round(slow.touchDry!.midMs! + 4 * MINUTE_MS);
    const [felt] = timesOf([coated(1, TEN_MS), dry(2, lateMs)]);
    if (!felt?.ok) throw new Error('no clock');
    expect(face(felt, quick.surface).usableUntil).toEqual(quick.usableUntil);
    expect(face(felt, slow.surface).touchDry!.midMs).toBe(lateMs);
  });

  it('asks about a wild entry once for the joint, and counts it in full once confirmed', () => {
    const log = [coated(1, TEN_MS), dry(2, TEN_MS + MINUTE_MS)];
    const [odd] = timesOf(log);
    if (!odd?.ok) throw new Error('no clock');
    expect(odd.questions).toHaveLength(1);
    const confirm: SiteEvent = { ...base(3, TEN_MS), kind: 'confirm', confirms: 'e2' };
    const [sure] = timesOf([...log, confirm]);
    if (!sure?.ok) throw new Error('no clock');
    expect(sure.questions).toEqual([]);
    expect(sure.usableUntil!.midMs!).toBeLessThan(odd.usableUntil!.midMs!);
  });

  it('passes over entries of another day, on which the same name is another part', () => {
    const log = [coated(1, TEN_MS)];
    const tomorrow = coated(2, TEN_MS + 86_400_000);
    expect(timesOf([...log, tomorrow, dry(3, TEN_MS + 86_500_000)])).toEqual(timesOf(log));
  });

  it('takes the usual faces of the product for a part that no list names', () => {
    const { films } = siteClocks(pack, [coated(1, TEN_MS, 'gone')], coatOf);
    expect(films).toMatchObject([{ surfaces: ['deck', 'folded-sheet'], listed: false }]);
  });
});
