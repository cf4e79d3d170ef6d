import { isOuterEdge, rises } from './kinds.ts';
import type { OutlinePiece, PieceEdgeKind, Point } from './types.ts';
import { cross, dot, minus } from './vectors.ts';

/** out = the outline points outwards; in = it bends back; straight = two edges in one line meet. */
export type CornerTurn = 'out' | 'in' | 'straight';

/**
 * What is patched there. internal = two upstands meet round a corner that points out, and the sheet is
 * folded into it; external = two upstands round a corner that bends back, the sheet is cut and filled;
 * upstand-end = an upstand meets an edge the sheet goes over.
 */
export type CornerPatch = 'internal' | 'external' | 'upstand-end';

export interface Corner {
  /** On the drawing. */
  readonly at: Point;
  /** Inside the roof [deg], 0..360. */
  readonly angleDeg: number;
  readonly turn: CornerTurn;
  readonly kinds: readonly [before: PieceEdgeKind, after: PieceEdgeKind];
  readonly patch: CornerPatch | null;
  /** Edges of different kind or height meet: trims and bars stop and start here. */
  readonly joint: boolean;
}

/** Less than this off a straight line is straight: within what is set out on a roof [deg]. */
const STRAIGHT_DEG = 1;

/** Angle inside a counter-clockwise outline at b [deg], 0..360. */
export function insideAngleDeg(a: Point, b: Point, c: Point): number {
  const [before, after] = [minus(b, a), minus(c, b)];
  return 180 - (Math.atan2(cross(before, after), dot(before, after)) * 180) / Math.PI;
}

export interface MeetingEdge {
  readonly kind: PieceEdgeKind;
  readonly upstandMm: number;
}

/** null in the middle of a straight run, where nothing changes. */
export function cornerOf(
  at: Point,
  angleDeg: number,
  before: MeetingEdge,
  after: MeetingEdge,
): Corner | null {
  const off = angleDeg - 180;
  const turn = Math.abs(off) < STRAIGHT_DEG ? 'straight' : off < 0 ? 'out' : 'in';
  const joint = before.kind !== after.kind || before.upstandMm !== after.upstandMm;
  if (turn === 'straight' && !joint) return null;
  const patch = patchAt(turn, rises(before.kind), rises(after.kind));
  return { at, angleDeg, turn, kinds: [before.kind, after.kind], patch, joint };
}

function patchAt(turn: CornerTurn, before: boolean, after: boolean): CornerPatch | null {
  if (before !== after) return 'upstand-end';
  if (!before || turn === 'straight') return null;
  return turn === 'out' ? 'internal' : 'external';
}

/**
 * Corners between edges of the roof, in order; where a cut or the next area begins, there is none.
 * @param piece  outline as it lies on the roof, for the angles
 * @param places its points on the drawing
 */
export function cornersOf(piece: OutlinePiece, places: readonly Point[]): readonly Corner[] {
  const n = piece.points.length;
  return piece.points.flatMap((b, i) => {
    const [before, after] = [piece.edges[(i + n - 1) % n]!, piece.edges[i]!];
    if (!isOuterEdge(before.kind) || !isOuterEdge(after.kind)) return [];
    const angleDeg = insideAngleDeg(piece.points[(i + n - 1) % n]!, b, piece.points[(i + 1) % n]!);
    return cornerOf(places[i]!, angleDeg, before, after) ?? [];
  });
}

export interface CornerCounts {
  readonly out: number;
  readonly in: number;
  readonly straight: number;
  readonly internal: number;
  readonly external: number;
  readonly upstandEnds: number;
  readonly joints: number;
}

export function countCorners(corners: readonly Corner[]): CornerCounts {
  const count = (test: (corner: Corner) => boolean): number => corners.filter(test).length;
  return {
    out: count((c) => c.turn === 'out'),
    in: count((c) => c.turn === 'in'),
    straight: count((c) => c.turn === 'straight'),
    internal: count((c) => c.patch === 'internal'),
    external: count((c) => c.patch === 'external'),
    upstandEnds: count((c) => c.patch === 'upstand-end'),
    joints: count((c) => c.joint),
  };
}
