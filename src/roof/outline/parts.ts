import { shareFeatures } from './bands.ts';
import { type BondingAreas, bondingWithin } from './bonding.ts';
import type { CornerCounts } from './corners.ts';
import { type Corner, countCorners } from './corners.ts';
import { type AreaMeasures, countFeatures, type EdgeMeasure, measureEdges } from './measure.ts';
import { pieceOnSurface } from './surface.ts';
import type { Feature, FeatureKind, OutlinePiece, PieceEdgeKind, RoofArea } from './types.ts';
import { edgeDistanceM, isInside, signedAreaM2 } from './vectors.ts';

/** What one piece of an area holds; over all pieces everything adds up to the area, but for the cuts. */
export interface PartMeasures {
  readonly piece: OutlinePiece;
  readonly planM2: number;
  /** Openings taken off, as it lies on the fall. */
  readonly surfaceM2: number;
  readonly perimeterStripM2: number;
  readonly fieldM2: number;
  readonly edges: readonly EdgeMeasure<PieceEdgeKind>[];
  /** Length of the cuts round this piece, as they lie on the fall [m]. */
  readonly innerM: number;
  readonly turnUpM2: number;
  readonly turnDownM2: number;
  readonly trimM2: number;
  readonly corners: readonly Corner[];
  readonly cornerCounts: CornerCounts;
  readonly features: readonly Feature[];
  readonly featureCounts: Readonly<Record<FeatureKind, number>>;
  readonly bonding: BondingAreas;
}

/**
 * Shares an area out over the pieces it was cut into: edges and bonding by where they lie, a corner or a
 * feature whole to one piece, the first that it lies in.
 * @param whole the area's own measures
 * @param pieces on the drawing; together they must make up the area
 */
export function measureParts(
  area: RoofArea,
  whole: AreaMeasures,
  pieces: readonly OutlinePiece[],
): readonly PartMeasures[] {
  const features = shareFeatures(pieces, area.features);
  const corners = shareCorners(pieces, whole.corners);
  return pieces.map((piece, i): PartMeasures => {
    const lying = pieceOnSurface(piece, area);
    const edges = measureEdges(lying);
    const bonding = bondingWithin(whole.bonding, lying);
    const sum = (of: (edge: EdgeMeasure<PieceEdgeKind>) => number): number =>
      edges.reduce((total, edge) => total + of(edge), 0);
    return {
      piece,
      planM2: signedAreaM2(piece.points),
      surfaceM2: bonding.fieldM2 + bonding.stripM2,
      perimeterStripM2: bonding.stripM2,
      fieldM2: bonding.fieldM2,
      edges,
      innerM: sum((e) => (e.kind === 'inner' ? e.lengthM : 0)),
      turnUpM2: sum((e) => e.turnUpM2),
      turnDownM2: sum((e) => e.turnDownM2),
      trimM2: sum((e) => e.trimM2),
      corners: corners[i]!,
      cornerCounts: countCorners(corners[i]!),
      features: features[i]!,
      featureCounts: countFeatures(features[i]!),
      bonding,
    };
  });
}

function shareCorners(
  pieces: readonly OutlinePiece[],
  corners: readonly Corner[],
): readonly (readonly Corner[])[] {
  const shares: Corner[][] = pieces.map(() => []);
  for (const corner of corners) {
    const offM = pieces.map((piece) => edgeDistanceM(corner.at, piece.points));
    // Several pieces may meet in a corner that a cut runs through.
    const first = offM.findIndex((m, i) => m < 1e-6 || isInside(corner.at, pieces[i]!.points));
    shares[first >= 0 ? first : offM.indexOf(Math.min(...offM))]?.push(corner);
  }
  return shares;
}
