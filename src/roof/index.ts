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
export { drawAsWritten } from './fault-drawing.ts';
export { type JobPiece, type JobSheets, jobSheets } from './job-sheets.ts';
export { layingBays } from './laying-bays.ts';
export * from './outline/index.ts';
export { PERIMETER_STRIP_M, SHEET_WIDTHS_M } from './practice.ts';
export {
  compareLayouts,
  drawRoof,
  type LayoutChange,
  type LayoutChoices,
} from './sheets/index.ts';
export type { TakeOffOptions } from './take-off-options.ts';
export * from './types.ts';
