/** Roofs of any plan: reading a drawing, measuring it, cutting it into bands and bays. Pure. */
export {
  clipToBand,
  convexParts,
  extentM,
  featuresOnCut,
  innerLengthM,
  lineAt,
  pieceOf,
  shareFeatures,
  splitAcross,
  splitByLines,
} from './bands.ts';
export { type BondingAreas, bondingAreas, bondingWithin } from './bonding.ts';
export {
  type Corner,
  type CornerCounts,
  type CornerPatch,
  type CornerTurn,
  countCorners,
} from './corners.ts';
export { type CutLine, cutBoth, cutLeft, isConvex } from './cut.ts';
export * from './drawing.ts';
export { featureOutline, gapM, isRound } from './features.ts';
export { isOuterEdge, rises, sheetAtEdge } from './kinds.ts';
export {
  type AreaMeasures,
  type EdgeMeasure,
  measureArea,
  measureRoof,
  type OutlineMeasures,
  type RoofMeasures,
} from './measure.ts';
export { outlineRoof, type ReadRoof } from './outline-roof.ts';
export { measureParts, type PartMeasures } from './parts.ts';
export { common, type Rings, ringsAreaM2, united, without } from './polygons.ts';
export { pointsOf, sidesOf } from './shapes.ts';
export { type Meeting, type SharedEdge, sharedEdges } from './shared-edges.ts';
export { compassDeg, type Fall, onSurface, pieceOnSurface, surfaceFactor } from './surface.ts';
export * from './types.ts';
export {
  distanceM,
  edgeDistanceM,
  isInside,
  perimeterM,
  planDirection,
  signedAreaM2,
} from './vectors.ts';
