import type { LayingBay } from './bay-take-off.ts';
import { pieceOf, shareFeatures } from './outline/bands.ts';
import { bondingAreas } from './outline/bonding.ts';
import { featureOutline } from './outline/features.ts';
import { sharedEdges } from './outline/shared-edges.ts';
import { pieceOnSurface } from './outline/surface.ts';
import type { Feature, OutlinePiece, OutlineRoof, RoofArea } from './outline/types.ts';
import { distanceM, dot, leftOf, signedAreaM2, towards } from './outline/vectors.ts';
import { layPieces, pieceTakeOff, sumTakeOffs } from './outline-take-off.ts';
import type { SheetEdgeKind, SheetPart } from './sheets/types.ts';
import { type SplitArea, splitArea } from './split-area.ts';

/**
 * The laying days of a drawn roof, area by area as drawn, each in working order.
 * @param maxBayM2 largest bay [m2], above 0
 */
export function outlineBays(roof: OutlineRoof, maxBayM2: number): readonly LayingBay[] {
  const splits = roof.areas.map((area) => splitArea(area, maxBayM2, roof.access));
  const of = splits.reduce((sum, split) => sum + split.bays.length, 0);
  let number = 0;
  return roof.areas.flatMap((area, a) => {
    const split = splits[a]!;
    const meets = meetingKinds(roof, a);
    const openings = split.features
      .filter(({ kind }) => kind === 'rooflight')
      .map((f) => featureOutline(f));
    const bonding = bondingAreas(pieceOnSurface(pieceOf(area), area), openings);
    return split.bays.map(({ pieces, areaM2 }): LayingBay => {
      number += 1;
      const shares = shareFeatures(pieces, split.features);
      const parts = pieces.map((piece, i) => partOf(area, piece, shares[i]!, split, meets));
      const laid: LayingBay['laid'] = (options = {}) =>
        layPieces(roof, area, parts, split.bays.length > 1, options);
      return {
        number,
        of,
        areaM2,
        nightSealM: parts.reduce((sum, part) => sum + edgeM(part, 'next-bay'), 0),
        laid,
        takeOff: (options) => {
          const many = roof.areas.length > 1;
          return sumTakeOffs(
            laid(options).map((piece, i) => pieceTakeOff(piece, pieces[i]!, bonding, many)),
          );
        },
      };
    });
  });
}

/** What an area's 'shared' edges are to the order of work: the area drawn first is laid first. */
function meetingKinds(roof: OutlineRoof, a: number): ReadonlyMap<number, SheetEdgeKind> {
  const areasM2 = roof.areas.map((area) => signedAreaM2(area.points));
  const kinds = new Map<number, SheetEdgeKind>();
  for (const { one, other } of sharedEdges(roof.areas, areasM2)) {
    const [mine, theirs] = one.area === a ? [one, other] : [other, one];
    if (mine.area === a) kinds.set(mine.edge, theirs.area < a ? 'earlier-bay' : 'next-bay');
  }
  return kinds;
}

function partOf(
  area: RoofArea,
  piece: OutlinePiece,
  features: readonly Feature[],
  split: SplitArea,
  meets: ReadonlyMap<number, SheetEdgeKind>,
): SheetPart {
  const edges = piece.edges.map((edge, i) => {
    const { upstandMm } = edge;
    if (edge.kind === 'shared')
      return { kind: meets.get(edge.source ?? -1) ?? ('next-bay' as const), upstandMm };
    if (edge.kind !== 'inner') return { kind: edge.kind, upstandMm };
    const to = piece.points[(i + 1) % piece.points.length]!;
    const [x, y] = leftOf(towards(piece.points[i]!, to));
    // What lies beyond a cut comes later down the fall and ahead along the row, and was laid before elsewhere.
    const beyond = [-x, -y] as const;
    const later = dot(beyond, split.down) > 0.5 || dot(beyond, split.ahead) > 0.5;
    return { kind: later ? ('next-bay' as const) : ('earlier-bay' as const), upstandMm: 0 };
  });
  const { fallDeg, fallPlanDeg } = area;
  return { points: piece.points, edges, fallDeg, fallPlanDeg, features };
}

function edgeM({ points, edges }: SheetPart, kind: SheetEdgeKind): number {
  return edges.reduce((sum, edge, i) => {
    const to = points[(i + 1) % points.length]!;
    return sum + (edge.kind === kind ? distanceM(points[i]!, to) : 0);
  }, 0);
}
