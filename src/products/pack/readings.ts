import { expExact } from './exponential.ts';
import { runningTotal, type Track, wholeSteps } from './steps.ts';
import type { ClockPack, PackColumn, PackShift, PackSurface } from './types.ts';

/** A difference this large is more than weather, and asked about [K]. */
const ODD_K = 15;
const TENTHS = 10;

type Reading = Extract<PackShift, { readonly kind: 'surface-temp' | 'rel-hum' }>;

/** How far site readings put a surface and its air off the forecast, by step; null = nobody has read any. */
export interface Off {
  /** [K] */
  readonly surfaceK: Float64Array | null;
  /** [% humidity] */
  readonly relHumPct: Float64Array | null;
}

export interface Said {
  readonly questions: string[];
  readonly notes: string[];
}

/**
 * What readings make of one surface: from a reading on, its difference from the middle forecast,
 * fading; a later reading takes the place of the one before.
 */
export function offOn(
  pack: ClockPack,
  surface: PackSurface,
  shifts: readonly PackShift[],
  said: Said,
): Off {
  const temps = shifts.filter(
    (shift): shift is Extract<Reading, { kind: 'surface-temp' }> =>
      shift.kind === 'surface-temp' &&
      shift.surface === surface &&
      !isIn(pack, shift.atMs, surface, 'surface-temp', shift.tempC),
  );
  const damps = shifts.filter(
    (shift): shift is Extract<Reading, { kind: 'rel-hum' }> =>
      shift.kind === 'rel-hum' && !isIn(pack, shift.atMs, null, 'rel-hum', shift.relHumPct),
  );
  const forecast = pack.surfaces.get(surface)!;
  const off: Off = {
    surfaceK: fading(pack, forecast, temps, ({ tempC }) => tempC, said),
    relHumPct: fading(pack, pack.relHum, damps, ({ relHumPct }) => relHumPct, said),
  };
  const odd = off.surfaceK?.find((k) => Math.abs(k) > ODD_K);
  if (odd !== undefined) {
    said.questions.push(
      `A surface reading lies ${Math.round(Math.abs(odd))} K ${odd > 0 ? 'above' : 'below'} the forecast. Is it right?`,
    );
  }
  return off;
}

/** The forecast side knows this reading already: counting it again would shift twice. */
function isIn(
  pack: ClockPack,
  atMs: number,
  surface: PackSurface | null,
  what: string,
  value: number,
): boolean {
  return pack.readings.some(
    (known) =>
      known.atMs === atMs &&
      known.what === what &&
      known.value === value &&
      (surface === null || known.surface === surface),
  );
}

function fading<T extends Reading>(
  pack: ClockPack,
  forecastTenths: Int32Array,
  readings: readonly T[],
  read: (reading: T) => number,
  said: Said,
): Float64Array | null {
  const offAt = new Map<number, { readonly off: number; readonly atMs: number }>();
  for (const reading of readings) {
    const step = Math.round((reading.atMs - pack.startMs) / pack.stepMs);
    if (!(step >= 0 && step < pack.knownSteps)) {
      said.notes.push('A reading from outside the time of this clock pack is not used.');
      continue;
    }
    const before = offAt.get(step);
    if (before !== undefined && before.atMs > reading.atMs) continue;
    offAt.set(step, {
      off: read(reading) - forecastTenths[step]! / TENTHS,
      atMs: reading.atMs,
    });
  }
  if (offAt.size === 0) return null;
  const left = expExact(-pack.stepMs / pack.readingLastsMs);
  const column = new Float64Array(pack.steps);
  let off = 0;
  for (let i = 0; i < pack.steps; i += 1) {
    off = offAt.get(i)?.off ?? off * left;
    column[i] = off;
  }
  return column;
}

/** The slow, middle and fast progress of a film, ready to be asked. */
export interface Tracks {
  readonly slow: Track;
  readonly mid: Track;
  readonly fast: Track;
}

const unshifted = new WeakMap<PackColumn, Tracks>();

/** A column's running totals, with the rates as readings put them. */
export function tracksOf(pack: ClockPack, column: PackColumn, off: Off): Tracks {
  if (off.surfaceK === null && off.relHumPct === null) {
    const known = unshifted.get(column) ?? asTracks(pack, column);
    unshifted.set(column, known);
    return known;
  }
  const factor = factors(pack, column, off);
  const shifted = (steps: Int32Array): Float64Array => {
    const out = new Float64Array(steps.length);
    for (let i = 0; i < steps.length; i += 1) out[i] = steps[i]! * factor[i]!;
    return out;
  };
  const mid = wholeSteps(shifted(column.mid));
  return asTracks(pack, {
    slow: wholeSteps(shifted(column.slow), { ceiling: mid }),
    mid,
    fast: wholeSteps(shifted(column.fast), { floor: mid }),
  });
}

/** What the readings make of the rate in each step: 1 = as forecast. */
function factors(pack: ClockPack, column: PackColumn, { surfaceK, relHumPct }: Off): Float64Array {
  const out = new Float64Array(pack.steps).fill(1);
  for (let i = 0; i < pack.steps; i += 1) {
    const thousandths =
      (surfaceK === null ? 0 : column.perK[i]! * surfaceK[i]!) +
      (relHumPct === null ? 0 : column.perPct[i]! * relHumPct[i]!);
    if (thousandths !== 0) out[i] = expExact(thousandths / 1000);
  }
  return out;
}

function asTracks(pack: ClockPack, columns: Pick<PackColumn, 'slow' | 'mid' | 'fast'>): Tracks {
  const track = (steps: Int32Array): Track => ({
    startMs: pack.startMs,
    stepMs: pack.stepMs,
    knownSteps: pack.knownSteps,
    total: runningTotal(steps),
  });
  return { slow: track(columns.slow), mid: track(columns.mid), fast: track(columns.fast) };
}
