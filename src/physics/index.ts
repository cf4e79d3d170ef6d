/**
 * Air, sun, sky, wind, surfaces, water, solvents, curing, wood, heat and cold at work: pure functions with a stated range,
 * source and accuracy each. Everything is checked against published values in tests/published; what
 * is common practice or from memory is listed in docs/accuracy.md. Arguments out of range, NaN
 * included, throw; `hot.ts` holds unguarded twins for inner loops.
 */
export * from './air.ts';
export * from './cure.ts';
export * from './evaporation.ts';
export * from './fao56.ts';
export * from './film.ts';
export * from './hot.ts';
export * from './irradiance.ts';
export * from './saturation.ts';
export * from './sky.ts';
export * from './sky-view.ts';
export * from './solvent.ts';
export { type SunPosition, sunPosition } from './sun.ts';
export * from './sun-times.ts';
export * from './surface.ts';
export * from './wet-bulb.ts';
export * from './wind.ts';
export * from './wood.ts';
export * from './worker.ts';
