import type { ClockRange } from '../clock.ts';
import type { ClockEvent } from '../types.ts';
import { bounded, type Fingers, fingersOn } from './finger.ts';
import { type Off, offOn, type Said, type Tracks, tracksOf } from './readings.ts';
import { whenMade } from './steps.ts';
import {
  type ClockPack,
  type PackClock,
  type PackProduct,
  type PackShift,
  type PackTime,
  UNITS_PER_MINUTE,
} from './types.ts';

const MS_PER_UNIT = 60_000 / UNITS_PER_MINUTE;

/** One coated face with everything said of it on site, ready to be asked. */
export interface Face {
  readonly clock: PackClock;
  readonly off: Off;
  readonly fingers: Fingers;
  readonly product: PackProduct;
  tracks(event: ClockEvent): Tracks | null;
}

export function faceOf(
  pack: ClockPack,
  product: PackProduct,
  clock: PackClock,
  shifts: readonly PackShift[],
  said: Said,
): Face {
  const off = offOn(pack, clock.surface, shifts, said);
  const byLaw = new Map<number, Tracks>();
  const tracks = (event: ClockEvent): Tracks | null => {
    const law = clock.laws[event];
    if (law === undefined) return null;
    const known = byLaw.get(law) ?? tracksOf(pack, pack.columns[law]!, off);
    byLaw.set(law, known);
    return known;
  };
  const touchDry = product.times.touchDry;
  const fingers = fingersOn(
    shifts,
    product.id,
    clock.surface,
    touchDry,
    touchDry === null ? null : tracks('touchDry'),
    said,
  );
  return { clock, off, fingers, product, tracks };
}

/** Early = the fast end of the product in the fast forecasts, late = the slow end in the slow ones. */
function range(tracks: Tracks, fromMs: number, time: PackTime, speed = 1): ClockRange {
  const at = (track: Tracks['mid'], units: number): number | null =>
    whenMade(track, fromMs, Math.round((units * track.stepMs) / speed));
  return {
    earlyMs: at(tracks.fast, time[0]),
    midMs: at(tracks.mid, time[1]),
    lateMs: at(tracks.slow, time[2]),
  };
}

/** Touch dry of a film on this face; a finger test overrules the reckoning. */
export function touchDryOn(face: Face, coatedMs: number): ClockRange | null {
  const time = face.product.times.touchDry;
  const tracks = face.tracks('touchDry');
  if (time === null || tracks === null) return null;
  const { earlyMs, midMs, lateMs } = range(tracks, coatedMs, time, face.fingers.speed);
  return {
    earlyMs: bounded(earlyMs, coatedMs, face.fingers),
    midMs: bounded(midMs, coatedMs, face.fingers),
    lateMs: bounded(lateMs, coatedMs, face.fingers),
  };
}

/**
 * End of open time on this face. Plain time stands whatever is felt; and a slow finger test never
 * lengthens open time beyond the slow end without it.
 */
export function usableOn(face: Face, coatedMs: number): ClockRange | null {
  const time = face.product.times.openUntil;
  if (time === null) return null;
  if (face.product.openEndsBy === 'time') {
    const after = (units: number): number => coatedMs + units * MS_PER_UNIT;
    return { earlyMs: after(time[0]), midMs: after(time[1]), lateMs: after(time[2]) };
  }
  const tracks = face.tracks('openUntil');
  if (tracks === null) return null;
  const felt = range(tracks, coatedMs, time, face.fingers.speed);
  const { lateMs: most } = range(tracks, coatedMs, time);
  const capped = (ms: number | null): number | null =>
    most === null ? ms : Math.min(ms ?? most, most);
  return {
    earlyMs: capped(felt.earlyMs),
    midMs: capped(felt.midMs),
    lateMs: capped(felt.lateMs),
  };
}

/** From when rain does no harm. A finger test may put it off, never bring it forward: nobody felt a skin. */
export function rainAfterOn(face: Face, coatedMs: number): ClockRange | null {
  return plainOn(face, 'rainAfter', coatedMs, Math.min(1, face.fingers.speed));
}

/** Times under the closed sheet: readings count, finger tests do not. */
export function plainOn(
  face: Face,
  event: 'rainAfter' | 'footTraffic' | 'fullCure',
  coatedMs: number,
  speed = 1,
): ClockRange | null {
  const time = face.product.times[event];
  const tracks = face.tracks(event);
  return time === null || tracks === null ? null : range(tracks, coatedMs, time, speed);
}

/** From when a film that is closed wet may be closed: at once, or from cream time. */
export function closeFromOn(face: Face, coatedMs: number): ClockRange {
  const time = face.product.times.closeFrom;
  const tracks = face.tracks('openUntil');
  if (time === null || tracks === null) {
    return { earlyMs: coatedMs, midMs: coatedMs, lateMs: coatedMs };
  }
  return range(tracks, coatedMs, time);
}
