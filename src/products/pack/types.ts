import type { SurfaceSpec } from '../../weather/index.ts';
import type { ClockRange } from '../clock.ts';
import type { ClockEvent, Closing, Product, RefTime } from '../types.ts';

export const PACK_FORMAT = 'layfair-clock-pack-1';

/** Progress is counted in hundredths of a minute at reference conditions. */
export const UNITS_PER_MINUTE = 100;

export type PackSurface = SurfaceSpec['kind'];

/** What may stand against a film in a step; the bit in its flags. */
export const PACK_FLAGS = {
  airMinC: 1,
  airMaxC: 2,
  surfaceMinC: 4,
  surfaceMaxC: 8,
  dewMarginMinK: 16,
  relHumMaxPct: 32,
  afterMinC: 64,
  rainLikely: 128,
  rainPossible: 256,
} as const;
export type PackFlag = keyof typeof PACK_FLAGS;

/** A product time, low, typical, high [hundredths of a minute]. */
export type PackTime = readonly [low: number, typical: number, high: number];

/** Product times in the pack: those of the clock, and from when a film closed wet may be closed. */
export type PackTimeName = ClockEvent | 'closeFrom';

/** Limits that a reading on site can break by itself [tenths of °C, tenths of %]. */
export interface PackLimits {
  readonly surfaceMinC: number | null;
  readonly surfaceMaxC: number | null;
  readonly relHumMaxPct: number | null;
}

export interface PackProduct {
  readonly id: string;
  readonly name: string;
  readonly closing: Closing;
  readonly openEndsBy: Product['openEndsBy'];
  readonly faces: 1 | 2;
  readonly times: Readonly<Record<PackTimeName, PackTime | null>>;
  readonly limits: PackLimits;
}

/** One law of drying on one surface. */
export interface PackColumn {
  /** Progress in each step in the slow tenth, the middle and the fast tenth of the forecasts. */
  readonly slow: Int32Array;
  readonly mid: Int32Array;
  readonly fast: Int32Array;
  /** How the middle rate answers to a warmer surface and damper air [thousandths of ln rate per K, per % humidity]. */
  readonly perK: Int32Array;
  readonly perPct: Int32Array;
}

export interface PackClock {
  readonly productId: string;
  readonly surface: PackSurface;
  /** Which column each event of this product runs on, by index. */
  readonly laws: Readonly<Partial<Record<ClockEvent, number>>>;
  /** Bit sets, see `PACK_FLAGS`. */
  readonly flags: Int32Array;
}

/** A reading the forecast side of the pack already starts from. */
export interface PackReading {
  readonly surface: PackSurface;
  readonly atMs: number;
  readonly what: 'surface-temp' | 'rel-hum';
  /** °C or %. */
  readonly value: number;
}

/** Where the weather came from, so that age and origin can be shown with no signal. */
export interface PackWeather {
  readonly kind: 'live' | 'file' | 'demo';
  readonly model: string | null;
  readonly issuedMs: number | null;
  readonly fetchedMs: number | null;
  readonly invented: boolean;
  readonly count: number;
}

/** All clocks of one job and day, ready to be read. Step i covers [startMs + i * stepMs, + stepMs). */
export interface ClockPack {
  readonly jobId: string;
  /** 'YYYY-MM-DD', local to the site. */
  readonly date: string;
  readonly timeZone: string;
  readonly builtMs: number;
  readonly startMs: number;
  readonly stepMs: number;
  readonly steps: number;
  /** Leading steps for which at least half of the forecasts say something. */
  readonly knownSteps: number;
  /** How long a reading's difference lasts: it fades to 1/e in this time. */
  readonly readingLastsMs: number;
  readonly weather: PackWeather;
  readonly readings: readonly PackReading[];
  /** Middle humidity [tenths of %]. */
  readonly relHum: Int32Array;
  /** Middle surface temperature [tenths of °C]. */
  readonly surfaces: ReadonlyMap<PackSurface, Int32Array>;
  readonly products: readonly PackProduct[];
  readonly columns: readonly PackColumn[];
  readonly clocks: readonly PackClock[];
}

interface ShiftBase {
  /** The id of the entry in the site log; a shift is undone by leaving it out. */
  readonly id: string;
  readonly atMs: number;
}

/** What was read or felt on site since the pack was made. */
export type PackShift =
  | (ShiftBase & {
      readonly kind: 'surface-temp';
      readonly surface: PackSurface;
      readonly tempC: number;
    })
  | (ShiftBase & { readonly kind: 'rel-hum'; readonly relHumPct: number })
  | (ShiftBase & {
      readonly kind: 'touch-dry' | 'not-yet-dry';
      readonly productId: string;
      readonly surface: PackSurface;
      /** When the film that was felt was coated. */
      readonly coatedMs: number;
      /** Somebody was asked whether this touch dry is right, and said so. */
      readonly confirmed?: boolean;
      /** Dry by then, perhaps long before: felt together with a slower face. */
      readonly noLater?: boolean;
    });

export interface PackQuestion {
  readonly productId: string;
  /** The faces coated, one or more. */
  readonly surfaces: readonly PackSurface[];
  /** First square metre. */
  readonly coatedMs: number;
  /** Last square metre; the first where left out. */
  readonly lastCoatedMs?: number;
  readonly shifts: readonly PackShift[];
}

/** Something that stands against the film, and when in the time it lies open. */
export interface PackWarning {
  readonly flag: PackFlag;
  readonly fromMs: number;
  readonly toMs: number;
}

/** From the latest touch dry to the earliest end of open time. */
export interface PackWindow {
  readonly opens: ClockRange;
  readonly shuts: ClockRange;
  /** 'narrow' = a late opening would meet an early end; 'empty' = the middle times already do. */
  readonly state: 'open' | 'narrow' | 'empty' | 'not known';
}

export interface PackFace {
  readonly surface: PackSurface;
  readonly touchDry: ClockRange | null;
  readonly usableUntil: ClockRange | null;
}

/** A range is null where the product has no such time; a time in it where the pack ends before it. */
export interface PackTimes {
  readonly ok: true;
  readonly touchDry: ClockRange | null;
  readonly usableUntil: ClockRange | null;
  readonly rainAfter: ClockRange | null;
  readonly footTraffic: ClockRange | null;
  readonly fullCure: ClockRange | null;
  readonly window: PackWindow | null;
  /** Null where the product has no clock that makes it ready. */
  readonly ready: 'by clock' | 'by finger test' | 'withheld' | null;
  /** The end of open time to count on: its middle, or the early end outside the data sheet. */
  readonly countUntilMs: number | null;
  readonly outside: readonly PackWarning[];
  readonly rain: readonly PackWarning[];
  readonly faces: readonly PackFace[];
  /** Up to when this pack can say anything. */
  readonly knownUntilMs: number;
  /** To be asked of whoever logged an entry. */
  readonly questions: readonly string[];
  /** Entries that could not be used, and why. */
  readonly notes: readonly string[];
}

export type PackAnswer = PackTimes | { readonly ok: false; readonly why: string };

/** @returns the time as it travels: hundredths of a minute, or null where the product has none */
export function packTime(time: RefTime | null): PackTime | null {
  if (time === null) return null;
  const units = (minutes: number): number => Math.round(minutes * UNITS_PER_MINUTE);
  return [units(time.lowMin), units(time.typicalMin), units(time.highMin)];
}
