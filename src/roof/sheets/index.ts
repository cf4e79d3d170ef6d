/** Sheet layout for roof areas of any outline, its cut list, and the drawing of it. Pure. */
export { compareLayouts, type LayoutChange } from './compare-layouts.ts';
export { drawRoof } from './draw/draw-roof.ts';
export type { DrawnIssue, DrawnPart, DrawnSection, RoofDrawing } from './draw/drawing.ts';
export { layOutOutlineSheets, type OutlineSheetOptions } from './lay-out-sheets.ts';
export * from './rules.ts';
export * from './types.ts';
