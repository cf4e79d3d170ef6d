/** Roof geometry: areas, edges, sheet layout, bays, take-off. Pure. */

export {
  type AnyRoof,
  isDrawn,
  outlineOf,
  type RoofLie,
  roofIssues,
  roofLie,
} from './any-roof.ts';
export * from './bay-take-off.ts';
export { splitIntoBays } from './bays.ts';
export { type JobPiece, type JobSheets, jobSheets } from './job-sheets.ts';
export { layingBays } from './laying-bays.ts';
export * from './outline/index.ts';
export * from './practice.ts';
export {
  compareLayouts,
  drawRoof,
  type LayoutChange,
  type LayoutChoices,
} from './sheets/index.ts';
export {
  cornersToPatch,
  sheetTouches,
  sideLengthM,
  type TakeOffOptions,
  takeOff,
} from './take-off.ts';
export * from './types.ts';
