import { KELVIN_AT_0C } from './constants.ts';

/** Exact conversions between the units people print and the one unit used inside. */

export const cToK = (c: number): number => c + KELVIN_AT_0C;
export const kToC = (k: number): number => k - KELVIN_AT_0C;
export const fToC = (f: number): number => ((f - 32) * 5) / 9;
export const cToF = (c: number): number => (c * 9) / 5 + 32;
/** A temperature difference of one °F is 5/9 K; never shift a difference by 32. */
export const fDiffToK = (fDiff: number): number => (fDiff * 5) / 9;
/** International mile: 1609.344 m (exact). */
export const mphToMps = (mph: number): number => (mph * 1609.344) / 3600;
export const kmhToMps = (kmh: number): number => kmh / 3.6;
export const mpsToKmh = (mps: number): number => mps * 3.6;
/** International knot: 1852 m/h (exact). */
export const knotsToMps = (knots: number): number => (knots * 1852) / 3600;
/** Inch: 25.4 mm (exact). */
export const inchToMm = (inch: number): number => inch * 25.4;
export const degToRad = (deg: number): number => (deg * Math.PI) / 180;
export const radToDeg = (rad: number): number => (rad * 180) / Math.PI;
