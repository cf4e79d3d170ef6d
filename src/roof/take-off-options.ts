import type { LayoutChoices } from './sheets/types.ts';

/** What a bay's sheets are cut from, and what the user has set; common practice where left out. */
export interface TakeOffOptions {
  /** Roll widths to choose from [m], each 0.5..20, no two alike. */
  readonly sheetWidthsM?: readonly number[];
  /** Width of a lap [m], 0.05..0.3. */
  readonly lapM?: number;
  /** Longest piece off a roll [m], 5..200. */
  readonly rollLengthM?: number;
  /** What the user has turned, moved or fixed, by area; a rectangle by its sizes is area 'roof'. */
  readonly choices?: Readonly<Record<string, LayoutChoices>>;
}
