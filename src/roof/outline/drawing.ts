import type { FeatureKind, OutlineEdgeKind, Point } from './types.ts';

/** A roof as people write it, before anything is checked; sizes in metres, see docs/roof-drawing.md. */

export const CUT_CORNERS = ['low-left', 'low-right', 'high-left', 'high-right'] as const;
export type CutCorner = (typeof CUT_CORNERS)[number];

/** In the order of their edges: counter-clockwise from the low left corner. */
export const RECTANGLE_SIDES = ['low', 'right', 'high', 'left'] as const;
/** An L has two more: the cut-out's side along the length and the one along the width. */
export const L_SIDES = [...RECTANGLE_SIDES, 'cutLength', 'cutWidth'] as const;
export type DrawnSide = (typeof L_SIDES)[number];

interface Placed {
  /** Low left corner of the whole shape. */
  readonly at: Point;
  /** Turned counter-clockwise about that corner [deg]. */
  readonly turnDeg: number;
}

export interface RectangleShape extends Placed {
  readonly kind: 'rectangle';
  readonly lengthM: number;
  readonly widthM: number;
}

export interface LShape extends Placed {
  readonly kind: 'l-shape';
  /** Overall sizes. */
  readonly lengthM: number;
  readonly widthM: number;
  readonly cutLengthM: number;
  readonly cutWidthM: number;
  readonly cutCorner: CutCorner;
}

export interface PolygonShape {
  readonly kind: 'polygon';
  /** Either way round, without repeating the first. */
  readonly points: readonly Point[];
}

export type DrawnShape = RectangleShape | LShape | PolygonShape;

export interface DrawnEdge {
  /** null = not said. */
  readonly kind: OutlineEdgeKind | null;
  /** null = the usual height for its kind. */
  readonly upstandMm: number | null;
}

export interface DrawnFeature {
  readonly id: string;
  readonly kind: FeatureKind;
  readonly at: Point;
  readonly sizeM: readonly [number, number];
  readonly upstandMm: number | null;
  readonly turnDeg: number;
}

export interface DrawnArea {
  readonly id: string;
  readonly name: string;
  readonly shape: DrawnShape;
  readonly fallDeg: number;
  readonly fallPlanDeg: number;
  /** One for each point in the order written, or by side for the simple shapes. */
  readonly edges:
    | readonly DrawnEdge[]
    | Readonly<Partial<Record<DrawnSide, DrawnEdge | undefined>>>;
  readonly features: readonly DrawnFeature[];
}

export interface DrawnRoof {
  readonly areas: readonly DrawnArea[];
  readonly northDeg: number;
  readonly access: Point | null;
}
