import { describe, expect, it } from 'vitest';
import { ballastFor, checkStop, nextShift } from '../../src/planner/index.ts';
import type { SafeStop, StopKind } from '../../src/stages/index.ts';
import { jobOf, preparedFor, type Setting } from '../fixtures/planner/job.ts';
import { buildUpWith, HALL, PRODUCTS, workOf } from './stages-examples.ts';

/** Which stops a roof may be left at: the trade's stage rules, common practice. */

const layered = (
  exposureDays: number,
  under: 'occupied-room' | 'sound-covering' = 'occupied-room',
) =>
  workOf({
    buildUp: buildUpWith(PRODUCTS, {
      under,
      layDeck: true,
      insulation: { thicknessMm: 120, vapourLayer: { exposureDays } },
    }),
  }).stops;
const stopOf = (stops: readonly SafeStop[], kind: StopKind): SafeStop | undefined =>
  stops.find((stop) => stop.kind === kind);

describe('places to stop', () => {
  it('follow the order of the work', () => {
    const work = workOf();
    const order = work.stops.map(({ after }) => work.activities.findIndex((a) => a.id === after));
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order).not.toContain(-1);
  });

  it('offer sheeting whenever a deck is bared, with its whole outline sealed', () => {
    // 6 x 3.5 m: 19 m round it.
    expect(stopOf(workOf().stops, 'sheeted-deck')).toMatchObject({
      allowed: true,
      sealM: expect.closeTo(19, 9),
      looseM2: expect.closeTo(21, 9),
    });
    const bare = workOf({ buildUp: buildUpWith(PRODUCTS, { strip: false }) });
    expect(stopOf(bare.stops, 'sheeted-deck')).toBeUndefined();
  });

  it('take a sealed vapour layer only where its own sheet lets it lie open', () => {
    expect(stopOf(layered(28), 'sealed-vapour-layer')?.allowed).toBe(true);
    expect(stopOf(layered(0), 'sealed-vapour-layer')?.allowed).toBe(false);
  });

  it('count a loose or half-bonded sheet only over something watertight', () => {
    for (const kind of ['weighted-sheet', 'half-bonded'] as const) {
      expect(stopOf(layered(0), kind)?.allowed).toBe(false);
      expect(stopOf(layered(0, 'sound-covering'), kind)?.allowed).toBe(true);
    }
  });

  it('seal the edge towards the next bay, and no more once the last bay is down', () => {
    const first = workOf({ roof: HALL, bayAreaM2: 60 });
    expect(first.bay.of).toBe(2);
    expect(stopOf(first.stops, 'night-seal')).toMatchObject({
      sealM: expect.closeTo(8, 9),
      looseM2: 0,
    });
    expect(stopOf(first.stops, 'watertight')).toBeUndefined();
    const last = workOf({ roof: HALL, bayAreaM2: 60, bayIndex: 1 });
    expect(stopOf(last.stops, 'night-seal')).toBeUndefined();
    expect(stopOf(last.stops, 'watertight')).toMatchObject({ allowed: true, sealM: 0 });
  });
});

describe('weight on a loose sheet', () => {
  it('balances the suction of EN 1991-1-4', () => {
    // 20 m/s: q = 1.25 / 2 x 400 = 250 Pa (4.5 and 4.8); table 7.2, sharp eaves: 0.7 away from edges,
    // 1.8 at corners. Factors 1.5 and 0.9 of EN 1990 (from memory): 250 x 0.7 x 1.5 / 0.9 / 9.81.
    const { fieldKgM2, edgeKgM2 } = ballastFor(20);
    expect(fieldKgM2).toBeCloseTo(29.73, 2);
    expect(edgeKgM2).toBeCloseTo(76.45, 2);
  });
});

const CREW = jobOf('boat-store').job.crew;
const at = (iso: string): number => Date.parse(iso);

describe('the next shift', () => {
  it('leaves weekends and days off out', () => {
    // Friday 15 May 2026, 16:00 in Dublin (UTC+1); the crew works Monday to Friday from 07:30.
    const friday = at('2026-05-15T15:00:00Z');
    expect(nextShift(CREW, friday, 'Europe/Dublin').startMs).toBe(at('2026-05-18T06:30:00Z'));
    const holiday = { ...CREW, daysOff: ['2026-05-18', '2026-05-19'] };
    expect(nextShift(holiday, friday, 'Europe/Dublin').startMs).toBe(at('2026-05-20T06:30:00Z'));
  });

  it('keeps the wall clock over a change of it', () => {
    // Clocks go back on Sunday 25 October 2026 in Dublin: 07:30 is then 07:30 UTC.
    const friday = at('2026-10-23T15:00:00Z');
    expect(nextShift(CREW, friday, 'Europe/Dublin').startMs).toBe(at('2026-10-26T07:30:00Z'));
  });
});

describe('a stop under the forecast', () => {
  const night = (weather: Setting['weather'], kind: StopKind = 'watertight') => {
    const prepared = preparedFor({ weather: { hours: 60, ...weather } });
    const stop = stopOf(
      workOf({ buildUp: buildUpWith(PRODUCTS, { under: 'sound-covering' }) }).stops,
      kind,
    )!;
    return checkStop(prepared, stop, at('2026-05-13T15:00:00Z'));
  };

  it('counts rain from leaving to the next shift, and not after it', () => {
    expect(night({ members: 3, rainMm: (h, m) => (h === 20 && m === 0 ? 2 : 0) }).rain).toEqual({
      count: 1,
      of: 3,
    });
    // 09:00 UTC is after the crew is back at 06:30 UTC.
    expect(night({ rainMm: (h) => (h === 33 ? 2 : 0) }).rain.count).toBe(0);
  });

  it('weights what lies loose against the high gust, and nothing else', () => {
    const gusty = { members: 11, gustMps: (h: number, m: number) => (h === 24 ? 10 + m : 5) };
    const loose = night(gusty, 'weighted-sheet');
    expect(loose.gustMps?.high).toBeGreaterThanOrEqual(18);
    expect(loose.ballast).toEqual(ballastFor(loose.gustMps!.high));
    expect(loose.words).toContain('kg/m²');
    expect(night(gusty).ballast).toBeNull();
  });

  it('does not take the unknown for dry', () => {
    const check = night({ hours: 20 });
    expect(check).toMatchObject({ gustMps: null, ballast: null, rain: { count: 0, of: 0 } });
    expect(check.words).toContain('does not reach');
  });
});
