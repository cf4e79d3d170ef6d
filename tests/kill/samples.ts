import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Job, SiteEvent } from '../../src/planner/index.ts';
import type { OwnProduct, Product } from '../../src/products/index.ts';
import type { DayCall } from '../../src/record/index.ts';
import type { Ctx, Firm, FirmCrew } from '../../src/store/index.ts';
import type { WeatherSource } from '../../src/weather/index.ts';

/** Invented rows for the tests of the store. */

export const uuid = (): string => randomUUID();

export const FIRM: Firm = {
  id: '0b0f6f0e-6a3e-4f0e-9f35-2f7f9a5a0001',
  name: 'Test firm',
  timeZone: 'Europe/Dublin',
  demo: false,
};
export const OTHER_FIRM: Firm = {
  ...FIRM,
  id: '0b0f6f0e-6a3e-4f0e-9f35-2f7f9a5a0002',
  name: 'Other firm',
};

export const ANNA: Ctx = { firmId: FIRM.id, actorId: 'anna' };
export const BEN: Ctx = { firmId: FIRM.id, actorId: 'ben' };
export const STRANGER: Ctx = { firmId: OTHER_FIRM.id, actorId: 'stranger' };

export function sampleCrew(name = 'Two hands'): FirmCrew {
  return {
    id: uuid(),
    name,
    people: 2,
    dayStart: '07:30',
    dayEnd: '17:00',
    breaks: [{ from: '10:00', minutes: 20 }],
    workDays: [1, 2, 3, 4, 5],
    daysOff: [],
  };
}

export function sampleJob(name = 'Bicycle shed', id = uuid()): Job {
  const { id: _id, ...crew } = sampleCrew();
  return {
    id,
    name,
    client: 'Ünïted 🚲 Cyclists',
    demo: false,
    site: {
      name: 'Back yard',
      latitudeDeg: 53.3,
      longitudeDeg: -6.2,
      elevationM: 20,
      timeZone: 'Europe/Dublin',
      terrain: 'suburban',
      roofHeightM: 3,
      skyline: [],
      parapetHeightM: 0,
      wall: null,
    },
    roof: {
      lengthM: 6.1,
      widthM: 3.05,
      fallDeg: 1.4,
      fallAzimuthDeg: 180,
      edges: { low: 'eaves', high: 'abutment', left: 'verge', right: 'verge' },
      upstandMm: 150,
      outlets: 0,
      pipes: 1,
      rooflights: 0,
    },
    buildUp: {
      deck: 'osb',
      deckThicknessMm: 18,
      under: 'unoccupied-space',
      strip: true,
      layDeck: false,
      insulation: null,
      deckMoisturePct: null,
      sheet: 'plain',
      products: {
        field: 'a',
        perimeter: 'b',
        primer: 'c',
        lapTape: 'd',
        patch: 'e',
        sealant: 'f',
        nightSeal: 'g',
      },
    },
    crew,
    costs: { currency: 'EUR', standDown: 150, shortened: 200, caughtOpen: 3000, waitPerDay: 60 },
    rates: {},
    layout: {},
    bayAreaM2: null,
    baysDone: 0,
    earliest: null,
    latest: '2026-06-30',
    confidence: 0.8,
  };
}

export function sampleProduct(id = 'own-adhesive'): Product {
  return {
    id,
    name: 'Own adhesive',
    does: ['field'],
    mechanism: 'water',
    closing: 'wet',
    faces: 1,
    solvent: null,
    reference: { airTempC: 20, relHumPct: 50, windMps: 0.5 },
    touchDry: null,
    openUntil: { lowMin: 15, typicalMin: 20, highMin: 30, source: 'user' },
    openEndsBy: 'drying',
    rainAfter: null,
    closeFrom: null,
    footTraffic: null,
    fullCure: null,
    tables: [],
    materialTempC: null,
    coverage: { value: 3, unit: 'm2/L', source: 'user' },
    limits: { airMinC: { value: 5, source: 'user' } },
    hazards: [],
  };
}

/** A firm's own product as it is kept. */
export function sampleOwnProduct(id = 'our-adhesive'): OwnProduct {
  return {
    id,
    name: 'Our adhesive',
    basedOn: 'deck-adhesive-wet-lay',
    limits: {
      airMinC: { printed: { value: 40, unit: '°F' }, source: 'data sheet' },
    },
  };
}

export const SOURCE: WeatherSource = {
  kind: 'file',
  model: null,
  issuedMs: 1_778_565_600_000,
  fetchedMs: null,
  invented: false,
  attribution: 'credit line',
  notes: [],
};

/** A note on a job; `more` replaces any field. */
export function note(
  jobId: string,
  atMs: number,
  text = 'looked at the deck',
  more: { id?: string } = {},
): SiteEvent {
  return { id: uuid(), jobId, atMs, loggedMs: atMs, actorId: 'anna', kind: 'note', text, ...more };
}

export function undo(jobId: string, undoes: string, atMs: number): SiteEvent {
  return { id: uuid(), jobId, atMs, loggedMs: atMs, actorId: 'anna', kind: 'undo', undoes };
}

/** What was said of a day, by a forecast of a quarter past six the day before. */
export function dayCall(jobId: string, date: string, more: Partial<DayCall> = {}): DayCall {
  const saidMs = Date.parse(`${date}T06:30:00Z`) - 86_400_000;
  return {
    jobId,
    date,
    saidMs,
    leadDays: 1,
    bay: 1,
    verdict: 'go',
    startMs: saidMs + 90_000_000,
    count: 40,
    of: 51,
    shrunk: 0.76,
    shown: 0.76,
    words: 'about 8 in 10',
    issuedMs: saidMs - 900_000,
    forecastMs: saidMs - 900_000,
    model: 'a model',
    made: false,
    ...more,
  };
}

/** A clock that never stands still, so that two writes never carry the same time by accident. */
export function steppingClock(startMs = 1_778_565_600_000): () => number {
  let ms = startMs;
  return () => (ms += 1000);
}

/** A folder of its own for one test file; the second item removes it. */
export function tempFolder(): [string, () => void] {
  const folder = mkdtempSync(join(tmpdir(), 'layfair-store-'));
  return [folder, () => rmSync(folder, { recursive: true, force: true })];
}
