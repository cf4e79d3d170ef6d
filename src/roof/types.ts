/**
 * A rectangular roof. Looking up the fall from the low edge: `low` is at your feet, `high` faces you,
 * `left` and `right` are the sides. `lengthM` runs along the low edge, `widthM` up the fall.
 */
export const EDGE_KINDS = ['eaves', 'verge', 'abutment'] as const;
/** eaves = water leaves over it into a gutter; verge = trimmed edge, no water over it; abutment = against a wall. */
export type EdgeKind = (typeof EDGE_KINDS)[number];

export const EDGE_SIDES = ['low', 'high', 'left', 'right'] as const;
export type EdgeSide = (typeof EDGE_SIDES)[number];

export interface Roof {
  readonly lengthM: number;
  readonly widthM: number;
  /** Fall of the finished surface [deg]; 1:40 is 1.4. */
  readonly fallDeg: number;
  /** Direction the water runs to, 0 = north, 90 = east. */
  readonly fallAzimuthDeg: number;
  readonly edges: Readonly<Record<EdgeSide, EdgeKind>>;
  /** Height the sheet is turned up at an abutment [mm]. */
  readonly upstandMm: number;
  readonly outlets: number;
  readonly pipes: number;
  readonly rooflights: number;
}

/** Quantities measured off the roof. All areas and lengths are net, before waste. */
export interface TakeOff {
  readonly areaM2: number;
  /** Area taking field adhesive: inside the perimeter strip and outside lap areas. */
  readonly fieldM2: number;
  /** Strip along edges and upstands taking contact adhesive on both faces. */
  readonly perimeterStripM2: number;
  readonly eavesM: number;
  readonly vergeM: number;
  readonly abutmentM: number;
  readonly upstandM2: number;
  /** Corners where a patch is needed: an abutment meeting another edge. */
  readonly cornerPatches: number;
  readonly lapM: number;
  readonly sheets: readonly SheetPiece[];
  readonly outlets: number;
  readonly pipes: number;
  readonly rooflights: number;
}

/** One piece of membrane, as cut. Length along the fall of the roof or along the low edge, see `runs`. */
export interface SheetPiece {
  readonly number: number;
  readonly lengthM: number;
  readonly widthM: number;
  /** Which way the roll is laid out. */
  readonly runs: 'up-the-fall' | 'along-the-low-edge';
}
