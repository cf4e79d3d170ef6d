/** When a layer is opened and covered, dried down and read; and what may then be said of the deck. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  deckState,
  fitFrom,
  panelMoisturePct,
  panelSoakedMm,
  type SiteReading,
  type SurfaceHistory,
  surfaceWeather,
} from '../../src/weather/index.ts';
import { newState, stepFace } from '../../src/weather/surface-core.ts';
import { ladderOf } from '../../src/weather/surface-ladder.ts';
import { air, between, MILD, real, roofs } from '../fixtures/weather/any-weather.ts';
import {
  type Air,
  BOARD,
  gridOf,
  HOUR_MS,
  MINUTE_MS,
  roofOf,
} from '../fixtures/weather/by-hand.ts';

const OPEN: SurfaceHistory = {
  openedMs: null,
  coveredMs: null,
  moistureAtOpeningPct: null,
  dryDowns: [],
  readings: [],
};
const reading = (atMs: number, kind: SiteReading['kind'], value: number): SiteReading => ({
  atMs,
  surfaceId: BOARD.id,
  kind,
  value,
});
/** Rain from the second to the fourth hour, then wind and sun. */
const shower = (h: number): Air => ({
  ...MILD,
  rainMmPerHour: h >= 2 && h < 4 ? 1 : 0,
  solarWm2: h > 6 ? 300 : 0,
});
const grid = gridOf({ hours: 24, at: shower });
const board = (history: Partial<SurfaceHistory> = {}) =>
  surfaceWeather(grid, BOARD, 0, { ...OPEN, ...history });
const at = (hour: number): number => Math.round(hour * 12);

describe('water is kept', () => {
  it('film and soaked after = before + rain - runoff - what left, to rounding, in any weather', () => {
    fc.assert(
      fc.property(
        roofs,
        fc.array(air, { minLength: 13, maxLength: 13 }),
        real(0, 5),
        fc.boolean(),
        (spec, hours, ponding, soaks) => {
          const ladder = ladderOf(spec, 300);
          const face = {
            ladder,
            stepS: 300,
            emissivity: spec.emissivity,
            pressureHPa: 1000,
            filmRoomMm: spec.filmMaxMm + ponding,
            soakRoomMm: soaks ? 1 : 0,
            soakMmPerStep: soaks ? 0.01 : 0,
            resistanceSpm: 0,
            supplyMmPerStep: 0,
          };
          const state = newState(ladder);
          let [rained, ranOff, left] = [0, 0, 0];
          for (let i = 0; i < 12 * 12; i += 1) {
            const now = between(hours, i / 12);
            stepFace(face, state, {
              absorbedWm2: now.solarWm2,
              longwaveWm2: 300,
              windMps: now.windMps,
              airC: now.airTempC,
              dewC: now.dewPointC,
              vapourHPa: 6.112 * Math.exp((17.62 * now.dewPointC) / (243.12 + now.dewPointC)),
              belowC: 15,
              rainMm: now.rainMmPerHour / 12,
            });
            rained += now.rainMmPerHour / 12;
            ranOff += state.ranOffMm;
            left += state.leftMm;
            expect(state.filmMm).toBeGreaterThanOrEqual(0);
            expect(state.ranOffMm).toBeGreaterThanOrEqual(0);
          }
          expect(state.filmMm + state.soakedMm).toBeCloseTo(rained - ranOff - left, 9);
        },
      ),
      { numRuns: 80 },
    );
  });

  it('what stays in hollows keeps a roof wet for longer', () => {
    const dryAt = (pondingMm: number): number | null =>
      fitFrom(surfaceWeather(grid, roofOf({ pondingMm }), 0), 0, 4 * HOUR_MS);
    expect(dryAt(0)).not.toBeNull();
    expect(dryAt(2)! - dryAt(0)!).toBeGreaterThan(HOUR_MS);
  });
});

describe('a layer that is opened and covered', () => {
  it('an empty history changes nothing', () => {
    expect(board().filmMm).toEqual(surfaceWeather(grid, BOARD, 0).filmMm);
    expect(board().surfaceTempC).toEqual(surfaceWeather(grid, BOARD, 0).surfaceTempC);
  });

  it('feels no rain before it is opened and none after it is covered', () => {
    const late = board({ openedMs: 5 * HOUR_MS, moistureAtOpeningPct: 12 });
    expect(late.filmMm[at(3)]).toBeNaN();
    expect(late.filmMm[at(5)]).toBe(0);
    expect(late.soakedMm[at(5)]).toBe(0);
    const early = board({ openedMs: HOUR_MS, coveredMs: 1.5 * HOUR_MS, moistureAtOpeningPct: 12 });
    expect(early.filmMm[at(1.25)]).toBe(0);
    expect(early.filmMm[at(3)]).toBeNaN();
    expect(deckState(early, 0, at(1.25))).toBe('dry');
    expect(deckState(early, 0, at(3))).toBe('unknown');
  });

  it('without a reading its moisture is not known until one is taken, and never counts as dry', () => {
    const history = { openedMs: 5 * HOUR_MS };
    expect(deckState(board(history), 0, at(8))).toBe('unknown');
    expect(fitFrom(board(history), 0, 0)).toBeNull();
    const read = board({ ...history, readings: [reading(7 * HOUR_MS, 'moisture', 12)] });
    expect(deckState(read, 0, at(6))).toBe('unknown');
    expect(deckState(read, 0, at(7))).toBe('dry');
    expect(fitFrom(read, 0, 0)).toBe(7 * HOUR_MS);
  });

  it('water that shows on it is wet whether or not its moisture is known', () => {
    expect(deckState(board({ openedMs: HOUR_MS }), 0, at(3))).toBe('wet');
  });

  it('a sheet holds no moisture: its opening needs no reading', () => {
    const sheet = surfaceWeather(grid, roofOf(), 0, { ...OPEN, openedMs: 5 * HOUR_MS });
    expect(deckState(sheet, 0, at(5))).toBe('dry');
  });
});

describe('readings', () => {
  it('18 % in a 650 kg/m3 board is 0.195 mm in its outer 5 mm, and back', () => {
    expect(panelSoakedMm(BOARD, 18)).toBeCloseTo(0.06 * 650 * 0.005, 9);
    expect(panelMoisturePct(BOARD, panelSoakedMm(BOARD, 18))).toBeCloseTo(18, 9);
    expect(panelSoakedMm(BOARD, 8)).toBe(0);
  });

  it('a wetter meter means later, a drier one earlier', () => {
    const fitMs = (pct: number): number =>
      fitFrom(board({ readings: [reading(7 * HOUR_MS, 'moisture', pct)] }), 0, 7 * HOUR_MS)!;
    expect(fitMs(12)).toBe(7 * HOUR_MS);
    expect(fitMs(24)).toBeGreaterThan(fitMs(19));
    expect(fitMs(19)).toBeGreaterThan(fitMs(12));
  });

  it('a surface temperature is where the model goes on from, and fades', () => {
    const free = board().surfaceTempC;
    const read = board({
      readings: [reading(12 * HOUR_MS, 'surface-temp', free[at(12) - 1]! + 5)],
    }).surfaceTempC;
    const offK = (hour: number): number => read[at(hour)]! - free[at(hour)]!;
    expect(read[at(12) - 1]).toBe(free[at(12) - 1]);
    expect(offK(12)).toBeGreaterThan(3.5);
    expect(offK(14)).toBeLessThan(offK(12));
    expect(offK(14)).toBeGreaterThan(1.5);
    expect(Math.abs(offK(23.9))).toBeLessThan(1);
  });

  it('of another surface or of the air change nothing', () => {
    const history = {
      readings: [
        { ...reading(6 * HOUR_MS, 'surface-temp', 60), surfaceId: 'other' },
        reading(6 * HOUR_MS, 'air-temp', 30),
        reading(6 * HOUR_MS, 'rel-hum', 30),
      ],
    };
    expect(board(history).surfaceTempC).toEqual(board().surfaceTempC);
  });

  it('that cannot be are refused by name', () => {
    const refuse = (history: Partial<SurfaceHistory>) => expect(() => board(history));
    refuse({ readings: [reading(0, 'surface-temp', 150)] }).toThrow(/readings\[0\]\.value.*150/);
    refuse({ readings: [reading(0, 'moisture', Number.NaN)] }).toThrow(/readings\[0\]\.value.*NaN/);
    refuse({ openedMs: 0, moistureAtOpeningPct: -1 }).toThrow(/moistureAtOpeningPct.*-1/);
    refuse({ dryDowns: [{ atMs: 0, leavesMm: 99 }] }).toThrow(/dryDowns\[0\]\.leavesMm.*99/);
    refuse({ openedMs: Number.NaN }).toThrow(/openedMs.*NaN/);
    refuse({ openedMs: 2, coveredMs: 1 }).toThrow(/coveredMs/);
  });
});

describe('sweeping water off', () => {
  it('leaves the film stated, takes nothing out of the panel, and brings the fit hour forward', () => {
    const swept = board({ dryDowns: [{ atMs: 4 * HOUR_MS, leavesMm: 0.05 }] });
    expect(swept.filmMm[at(4) - 1]).toBeGreaterThan(0.2);
    expect(swept.filmMm[at(4)]).toBeLessThanOrEqual(0.05);
    expect(swept.soakedMm[at(4)]! - board().soakedMm[at(4)]!).toBeCloseTo(0, 2);
    const roof = (history: SurfaceHistory): number =>
      fitFrom(surfaceWeather(grid, roofOf({ pondingMm: 1 }), 0, history), 0, 4 * HOUR_MS)!;
    const dry = roof({ ...OPEN, dryDowns: [{ atMs: 4 * HOUR_MS, leavesMm: 0.05 }] });
    expect(dry).toBeLessThan(roof(OPEN) - HOUR_MS);
  });

  it('never adds water', () => {
    const dry = board({ dryDowns: [{ atMs: HOUR_MS, leavesMm: 3 }] });
    expect(dry.filmMm[at(1)]).toBe(0);
  });
});

describe('fit from', () => {
  it('is dry for the half-hour after it and not before it', () => {
    const out = surfaceWeather(grid, roofOf(), 0);
    const ms = fitFrom(out, 0, 4 * HOUR_MS)!;
    const step = ms / (5 * MINUTE_MS);
    expect(deckState(out, 0, step - 1)).toBe('wet');
    for (let i = 0; i < 6; i += 1) expect(deckState(out, 0, step + i)).toBe('dry');
  });

  it('passes over a gap between showers that is too short, and the end of what is known', () => {
    const gappy = gridOf({
      hours: 6,
      at: (h) => ({ ...MILD, solarWm2: 500, rainMmPerHour: h < 1 || (h > 1.65 && h < 2) ? 1 : 0 }),
    });
    const out = surfaceWeather(gappy, roofOf({ filmMaxMm: 0.2 }), 0);
    const states = Array.from({ length: 72 }, (_, i) => deckState(out, 0, i));
    const firstDry = states.indexOf('dry', 12);
    expect(firstDry).toBeLessThan(at(1.6));
    expect(firstDry).toBeGreaterThan(at(1.2));
    expect(fitFrom(out, 0, 0)).toBeGreaterThan(2 * HOUR_MS);
    expect(fitFrom(out, 0, 5.75 * HOUR_MS)).toBeNull();
    expect(deckState(out, 0, 72)).toBe('unknown');
    expect(deckState(out, 0, -1)).toBe('unknown');
  });

  it('dew and frost make a deck wet, and a soaked panel damp', () => {
    const night = gridOf({
      hours: 9,
      at: () => ({ ...MILD, dewPointC: 13, windMps: 0.3, cloudPct: 0 }),
    });
    expect(deckState(surfaceWeather(night, roofOf(), 0), 0, 107)).toBe('wet');
    const soaked = board({ readings: [reading(12 * HOUR_MS, 'moisture', 25)] });
    expect(deckState(soaked, 0, at(12))).toBe('damp');
  });
});
