import type { LayoutWeights } from './types.ts';

/** Distances a sheet layout keeps. Common practice throughout; see docs/sheet-layout.md. */

/** Least distance along the roll between end laps of neighbouring courses [m]. */
export const END_LAP_STAGGER_M = 0.5;
/** A lap keeps this far off an edge or angle it runs alongside [m]. */
export const LAP_OFF_EDGE_M = 0.5;
/** A lap keeps this far off a corner of the outline [m]. */
export const LAP_OFF_CORNER_M = 0.3;
/** A lap keeps this far off the rim of an outlet [m]. */
export const LAP_OFF_OUTLET_M = 0.3;
/** Gaps in a course shorter than this are sheeted over and trimmed [m]. */
export const LEAST_GAP_M = 0.5;
/** A rooflight is sheeted round, not over, where what its kerb does not need is this wide both ways [m]. */
export const LARGE_OPENING_M = 2;
/** Rests of rolls this long go back to the store [m]. */
export const ROLL_END_KEPT_M = 1;

/**
 * Defaults, in m2 of sheet. A metre of lap takes 5-10 worker-minutes with primer, tape and sealant,
 * about what a square metre of sheet costs; unrolling, placing and relaxing one more piece about two; a
 * quarter of what goes back to the store is never used
 * (common practice; the user's to change).
 */
export const LAYOUT_WEIGHTS: LayoutWeights = {
  sheet: 1,
  rollRest: 0.25,
  lapPerM: 1,
  tJoint: 0.3,
  piece: 2,
  nearEdgePerM: 5,
  nearCorner: 1,
  nearOutlet: 3,
};
