/** Pure: hourly forecasts onto the 5-minute grid, and what each exposed surface of a roof feels. */
export * from './deck-state.ts';
export * from './grid.ts';
export {
  MADE_NOTE,
  type MadeOptions,
  membersFromOne,
} from './members-from-one.ts';
export {
  type HourTiming,
  hourlyOf,
  QUARTER_MS,
  QUARTERS_PER_HOUR,
  quartersOf,
  takesTiming,
  timingOf,
} from './quarter-rain.ts';
export { RAIN_TIMING_NOTE, type SplitOptions, splitCoarseRain } from './rain-timing.ts';
export { type CoarseBlock, coarseBlocks } from './rain-timing-blocks.ts';
export { skylineElevationDeg } from './skyline.ts';
export { substrateWm2K } from './surface-stack.ts';
export * from './surface-weather.ts';
export type * from './types.ts';
export { PANEL_REST_PCT, panelMoisturePct, panelSoakedMm } from './water-panel.ts';
