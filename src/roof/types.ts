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
  /** Every lap to be made with this part, joins to an earlier bay included. */
  readonly laps: readonly Lap[];
  /** Places where three sheets meet: each takes a patch. */
  readonly tJoints: number;
  readonly allowancesM: EdgeAllowances;
  readonly balance: SheetBalance;
  /** What a roofer would question, in plain sentences; the figures are kept as given. */
  readonly warnings: readonly string[];
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
  /** Width of the roll it is cut from [m]. */
  readonly rollWidthM: number;
  /** Lower left corner from the net roof's low left corner: x along the low edge, y up the fall [m]. */
  readonly xM: number;
  readonly yM: number;
}

/**
 * Edges of one day's part of a roof. next-bay = the sheet stops here tonight and laps onto tomorrow's;
 * earlier-bay = today's sheet joins one that is already down.
 */
export type BayEdgeKind = EdgeKind | 'next-bay' | 'earlier-bay';

/** A roof, or the part of it laid in one day. Every `Roof` is one. */
export interface RoofPart extends Omit<Roof, 'edges'> {
  readonly edges: Readonly<Record<EdgeSide, BayEdgeKind>>;
}

/** One laying day's strip of a roof, in working order. */
export interface Bay {
  readonly number: number;
  readonly of: number;
  readonly part: RoofPart;
  readonly areaM2: number;
  /** Edge to close for the night towards the next bay; 0 for the last bay. */
  readonly nightSealM: number;
  /** Lap onto the bay laid before; 0 for the first bay. */
  readonly joinM: number;
}

/** An overlap of two sheets. Position and size in the roof's own axes, see `SheetPiece`. */
export interface Lap {
  readonly number: number;
  /** side = between courses; end = within a course; join = onto the sheet of an earlier bay. */
  readonly kind: 'side' | 'end' | 'join';
  readonly lengthM: number;
  /** Numbers of the sheets it joins. */
  readonly sheets: readonly number[];
  readonly xM: number;
  readonly yM: number;
  readonly sizeXM: number;
  readonly sizeYM: number;
}

/** What the sheet is cut over the net size at each edge [m]. */
export type EdgeAllowances = Readonly<Record<EdgeSide, number>>;

/** The sheet bought, cut and laid. bought = cut + offcuts; cut = covered + laps. */
export interface SheetBalance {
  readonly boughtM2: number;
  readonly cutM2: number;
  /** Overlaps between this part's own sheets. */
  readonly lapM2: number;
  /** Net area plus everything turned up, overhanging or run on to the next bay. */
  readonly coveredM2: number;
  readonly overhangM2: number;
  readonly turnUpM2: number;
  readonly trimM2: number;
  readonly nextBayM2: number;
  /** Squares where two allowances meet: folded or cut away. */
  readonly cornersM2: number;
  /** Offcuts as a share of what is bought [%]. */
  readonly wastePct: number;
}
