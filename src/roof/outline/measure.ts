import { pieceOf } from './bands.ts';
import { type BondingAreas, bondingAreas, stripBands } from './bonding.ts';
import { type Corner, type CornerCounts, cornersOf, countCorners } from './corners.ts';
import { featureOutline } from './features.ts';
import { type Junction, junctionCorners } from './junctions.ts';
import { sheetAtEdge } from './kinds.ts';
import type { Rings } from './polygons.ts';
import { type SharedEdge, sharedEdges } from './shared-edges.ts';
import { onDrawing, onSurface, pieceOnSurface, surfaceFactor } from './surface.ts';
import {
  type Feature,
  type FeatureKind,
  OUTLINE_EDGE_KINDS,
  type OutlineEdgeKind,
  type OutlineRoof,
  type PieceEdgeKind,
  type Point,
  type RoofArea,
} from './types.ts';
import { distanceM, perimeterM, signedAreaM2 } from './vectors.ts';

/** One edge as it lies on the roof. */
export interface EdgeMeasure<Kind extends PieceEdgeKind = OutlineEdgeKind> {
  readonly index: number;
  readonly kind: Kind;
  readonly upstandMm: number;
  readonly lengthM: number;
  readonly turnUpM2: number;
  readonly turnDownM2: number;
  readonly trimM2: number;
}

export interface OutlineMeasures {
  /** Outline on the drawing, openings not taken off. */
  readonly planM2: number;
  /** Rooflight openings on the drawing. */
  readonly openingsPlanM2: number;
  readonly netPlanM2: number;
  /** Net area as it lies on the fall: net plan area over the cosine of the fall. */
  readonly surfaceM2: number;
  /** Of these: contact-bonded strip, and field with laps not yet taken off. */
  readonly perimeterStripM2: number;
  readonly fieldM2: number;
  readonly lengthByKindM: Readonly<Record<OutlineEdgeKind, number>>;
  /** Every edge of the roof, 'shared' ones left out. */
  readonly perimeterM: number;
  /** Sheet up the upstands at edges; over eaves, verges and kerbs; trimmed at the top. */
  readonly turnUpM2: number;
  readonly turnDownM2: number;
  readonly trimM2: number;
  readonly rooflightKerbM: number;
  readonly rooflightTurnUpM2: number;
  readonly rooflightCorners: number;
  readonly cornerCounts: CornerCounts;
  readonly features: Readonly<Record<FeatureKind, number>>;
}

export interface AreaMeasures extends OutlineMeasures {
  readonly areaId: string;
  /** What was taken off, and for which feature. */
  readonly deducted: readonly { readonly featureId: string; readonly planM2: number }[];
  readonly edges: readonly EdgeMeasure[];
  readonly corners: readonly Corner[];
  /** Rings as they lie on the roof, see `onSurface`. */
  readonly bonding: BondingAreas;
}

export interface RoofMeasures extends OutlineMeasures {
  readonly areas: readonly AreaMeasures[];
  readonly sharedEdges: readonly SharedEdge[];
  /** Corners where a shared edge ends at the edge of the roof. */
  readonly junctions: readonly Corner[];
}

/**
 * Quantities of one area of any plan by itself. Rooflight openings are taken off whatever their size; outlets and
 * pipes are not.
 * @param area checked, as `outlineRoof` gives it: simple outline, counter-clockwise, fallDeg 0..60
 * @param beyond on the drawing: strips of the areas next to it that reach over a shared edge
 * @returns net areas and lengths as they lie on the fall, before laps and waste
 * @throws RangeError on a fall out of range or a doubled point, NaN included
 * @source plane geometry; strip, overhang and trim common practice
 */
export function measureArea(area: RoofArea, beyond: Rings = []): AreaMeasures {
  const factor = surfaceFactor(area.fallDeg);
  const piece = pieceOnSurface(pieceOf(area), area);
  const edges = measureEdges({ points: piece.points, edges: area.edges });
  const rooflights = area.features.filter((f) => f.kind === 'rooflight');
  const openings = rooflights.map((f) => onSurface(featureOutline(f), area));
  const deducted = rooflights.map((f) => ({ featureId: f.id, planM2: f.sizeM[0] * f.sizeM[1] }));
  const bonding = bondingAreas(
    piece,
    openings,
    beyond.map((ring) => onSurface(ring, area)),
  );
  const corners = cornersOf(piece, area.points);
  const kerbsM = openings.map((outline) => perimeterM(outline));
  const sum = (of: (edge: EdgeMeasure) => number): number =>
    edges.reduce((total, edge) => total + of(edge), 0);
  const planM2 = signedAreaM2(area.points);
  const openingsPlanM2 = deducted.reduce((total, d) => total + d.planM2, 0);
  return {
    areaId: area.id,
    planM2,
    openingsPlanM2,
    netPlanM2: planM2 - openingsPlanM2,
    surfaceM2: (planM2 - openingsPlanM2) * factor,
    perimeterStripM2: bonding.stripM2,
    fieldM2: bonding.fieldM2,
    lengthByKindM: byKind((kind) => sum((e) => (e.kind === kind ? e.lengthM : 0))),
    perimeterM: sum((e) => (e.kind === 'shared' ? 0 : e.lengthM)),
    turnUpM2: sum((e) => e.turnUpM2),
    turnDownM2: sum((e) => e.turnDownM2),
    trimM2: sum((e) => e.trimM2),
    rooflightKerbM: kerbsM.reduce((total, m) => total + m, 0),
    rooflightTurnUpM2: kerbsM.reduce(
      (total, m, i) => total + (m * rooflights[i]!.upstandMm) / 1000,
      0,
    ),
    rooflightCorners: 4 * rooflights.length,
    cornerCounts: countCorners(corners),
    features: countFeatures(area.features),
    deducted,
    edges,
    corners,
    bonding,
  };
}

/** Quantities of a roof: those of its areas added up, and what happens where areas meet. */
export function measureRoof(roof: OutlineRoof): RoofMeasures {
  const met = sharedEdges(
    roof.areas,
    roof.areas.map((area) => signedAreaM2(area.points)),
  );
  const junctions = junctionCorners(roof.areas);
  const areas = roof.areas.map((area, i) => measureArea(area, beyondOf(roof, i, met, junctions)));
  const corners = junctions.map((junction) => junction.corner);
  const sum = (of: (area: AreaMeasures) => number): number =>
    areas.reduce((total, area) => total + of(area), 0);
  return {
    planM2: sum((a) => a.planM2),
    openingsPlanM2: sum((a) => a.openingsPlanM2),
    netPlanM2: sum((a) => a.netPlanM2),
    surfaceM2: sum((a) => a.surfaceM2),
    perimeterStripM2: sum((a) => a.perimeterStripM2),
    fieldM2: sum((a) => a.fieldM2),
    lengthByKindM: byKind((kind) => sum((a) => a.lengthByKindM[kind])),
    perimeterM: sum((a) => a.perimeterM),
    turnUpM2: sum((a) => a.turnUpM2),
    turnDownM2: sum((a) => a.turnDownM2),
    trimM2: sum((a) => a.trimM2),
    rooflightKerbM: sum((a) => a.rooflightKerbM),
    rooflightTurnUpM2: sum((a) => a.rooflightTurnUpM2),
    rooflightCorners: sum((a) => a.rooflightCorners),
    cornerCounts: countCorners([...areas.flatMap((a) => a.corners), ...corners]),
    features: countFeatures(roof.areas.flatMap((a) => a.features)),
    areas,
    sharedEdges: met,
    junctions: corners,
  };
}

/** Strips of the areas that the sheet runs on into, and of the corners where they meet. */
function beyondOf(
  roof: OutlineRoof,
  index: number,
  met: readonly SharedEdge[],
  junctions: readonly Junction[],
): Rings {
  const next = new Set<number>();
  for (const { one, other, meeting } of met) {
    if (meeting === 'step') continue;
    if (one.area === index) next.add(other.area);
    if (other.area === index) next.add(one.area);
  }
  if (next.size === 0) return [];
  const fillers = junctions.flatMap(({ filler }) => (filler === null ? [] : [filler]));
  const bands = [...next].flatMap((i) => {
    const area = roof.areas[i]!;
    const openings = area.features
      .filter((f) => f.kind === 'rooflight')
      .map((f) => onSurface(featureOutline(f), area));
    const lying = stripBands(pieceOnSurface(pieceOf(area), area), openings);
    return lying.map((band) => onDrawing(band, area));
  });
  return [...fillers, ...bands];
}

export function measureEdges<Kind extends PieceEdgeKind>(piece: {
  readonly points: readonly Point[];
  readonly edges: readonly { readonly kind: Kind; readonly upstandMm: number }[];
}): EdgeMeasure<Kind>[] {
  return piece.edges.map(({ kind, upstandMm }, index) => {
    const to = piece.points[(index + 1) % piece.points.length]!;
    const lengthM = distanceM(piece.points[index]!, to);
    const sheet = sheetAtEdge(kind, upstandMm);
    const turnUpM2 = lengthM * sheet.upM;
    const turnDownM2 = lengthM * sheet.downM;
    return { index, kind, upstandMm, lengthM, turnUpM2, turnDownM2, trimM2: lengthM * sheet.trimM };
  });
}

function byKind(of: (kind: OutlineEdgeKind) => number): Record<OutlineEdgeKind, number> {
  const entries = OUTLINE_EDGE_KINDS.map((kind) => [kind, of(kind)] as const);
  return Object.fromEntries(entries) as Record<OutlineEdgeKind, number>;
}

export function countFeatures(features: readonly Feature[]): Record<FeatureKind, number> {
  const count = (kind: FeatureKind): number => features.filter((f) => f.kind === kind).length;
  return { outlet: count('outlet'), pipe: count('pipe'), rooflight: count('rooflight') };
}
