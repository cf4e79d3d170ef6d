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
