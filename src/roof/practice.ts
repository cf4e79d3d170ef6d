/**
 * Sizes of the trade that a take-off leans on. All are common practice and may be overridden where a
 * function takes them as an option.
 */

/** Sheet left over at eaves and verges, dressed down and trimmed [m]. */
export const OVERHANG_M = 0.1;
/** Sheet over the height of an upstand, trimmed to the bar [m]. */
export const UPSTAND_TRIM_M = 0.05;
/** Tape lap; 75-100 mm is usual [m]. */
export const LAP_M = 0.1;
/** Field adhesive stops this far short of outer edges and upstands; the strip is contact-bonded [m]. */
export const PERIMETER_STRIP_M = 0.15;
/** Edge of a day's sheet that the night seal spoils and that is cut off before restarting [m]. */
export const NIGHT_SEAL_STRIP_M = 0.15;
/** Lowest upstand that is not questioned [mm]. */
export const UPSTAND_USUAL_MM = 150;
/** Roll widths that merchants carry [m]. */
export const SHEET_WIDTHS_M: readonly number[] = [3.05, 6.1];
/** Longest piece off a roll [m]. */
export const ROLL_LENGTH_M = 30.5;
/** Shortest piece worth handling [m]. */
export const SHORTEST_PIECE_M = 1;
/** Narrowest course on the flat of the roof; keeps laps out of edges and angles [m]. */
export const NARROWEST_COURSE_M = 0.5;
