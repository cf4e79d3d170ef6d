/** Constants, conversions and range guards. Imports nothing. */
export * from './constants.ts';
export * from './conversions.ts';
export * from './guards.ts';
export * from './money.ts';
export * from './random.ts';
