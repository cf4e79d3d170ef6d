/** The only door to luxon and to the clock: instants, local days, wording. */
export * from './clock.ts';
export { type InstantResult, isoUtc, isTimeZone, parseInstant } from './instants.ts';
export * from './local-days.ts';
export * from './wording.ts';
