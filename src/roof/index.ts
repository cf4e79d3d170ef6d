/** Roof geometry: areas, edges, sheet layout, bays, take-off. Pure. */
export { splitIntoBays } from './bays.ts';
export * from './laying-bays.ts';
export * from './practice.ts';
export {
  cornersToPatch,
  sheetTouches,
  sideLengthM,
  type TakeOffOptions,
  takeOff,
} from './take-off.ts';
export * from './types.ts';
