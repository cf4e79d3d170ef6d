/**
 * A roof of any plan: one or more areas, each a closed outline of typed edges. Coordinates are those of
 * the drawing in metres, x to the right and y up the page; `northDeg` says where north is. The fall
 * makes the surface longer than the drawing: `onSurface` gives the outline as it lies on the roof.
 */

/** x, y [m]. */
export type Point = readonly [x: number, y: number];

export const OUTLINE_EDGE_KINDS = [
  'gutter',
  'verge',
  'kerb',
  'abutment',
  'parapet',
  'boundary',
  'shared',
] as const;
/**
 * gutter = eaves, water leaves over it; verge = trimmed edge, no water over it; kerb = raised edge the
 * sheet goes over; abutment = against a wall; parapet = low wall the sheet goes up and may cap;
 * boundary = party wall or line of the plot, worked like an abutment from this side only;
 * shared = no edge of the roof: the next area begins here (ridge, valley, change of fall).
 */
export type OutlineEdgeKind = (typeof OUTLINE_EDGE_KINDS)[number];

/** Edge i runs from point i to the next, the last one back to the first. */
export interface OutlineEdge {
  readonly kind: OutlineEdgeKind;
  /** Height the sheet goes up [mm]; 0 where it does not. */
  readonly upstandMm: number;
  /** Its name in a simple shape, 'low' or 'cutLength' say. */
  readonly side?: string;
}

export const FEATURE_KINDS = ['outlet', 'pipe', 'rooflight'] as const;
export type FeatureKind = (typeof FEATURE_KINDS)[number];

export interface Feature {
  readonly id: string;
  readonly kind: FeatureKind;
  /** Its middle. */
  readonly at: Point;
  /** Plan size across x and y [m]; an outlet's or pipe's diameter twice. */
  readonly sizeM: readonly [number, number];
  /** Height of a rooflight's kerb or of the collar up a pipe [mm]; 0 for an outlet. */
  readonly upstandMm: number;
  /** Turned counter-clockwise against the drawing [deg]; rooflights only, 0 where left out. */
  readonly turnDeg?: number;
}

/** One area with one fall, outline counter-clockwise without a repeated last point. */
export interface RoofArea {
  readonly id: string;
  readonly name: string;
  readonly points: readonly Point[];
  readonly edges: readonly OutlineEdge[];
  readonly fallDeg: number;
  /** Direction the water runs to in plan [deg], 0 = +y, 90 = +x. */
  readonly fallPlanDeg: number;
  readonly features: readonly Feature[];
}

export interface OutlineRoof {
  readonly areas: readonly RoofArea[];
  /** Compass direction of +y [deg]. */
  readonly northDeg: number;
  /** Where people and material come up; null = not said. */
  readonly access: Point | null;
}

/** Something wrong with, or to be said of, a drawn roof: where, on the drawing and in a sentence. */
export interface OutlineIssue {
  readonly path: string;
  readonly message: string;
  /** 'warn' = kept as given. */
  readonly level: 'refuse' | 'warn';
  readonly at: Point | null;
}

/** inner = cut across an area, between two bays or strips. */
export type PieceEdgeKind = OutlineEdgeKind | 'inner';

/** Edge i of a piece; `source` is the edge of the uncut outline that it lies on, null for 'inner'. */
export interface PieceEdge {
  readonly kind: PieceEdgeKind;
  readonly upstandMm: number;
  readonly source: number | null;
}

/** A part of an area after straight cuts, counter-clockwise. An uncut outline is one, too. */
export interface OutlinePiece {
  readonly points: readonly Point[];
  readonly edges: readonly PieceEdge[];
}
