import type { OutlinePiece, PieceEdge, Point } from './types.ts';
import { along, cross, distanceM, dot, leftOf, minus, signedAreaM2 } from './vectors.ts';

/** A straight line with a direction; its left side is kept by `cutLeft`. */
export interface CutLine {
  readonly through: Point;
  /** Unit vector. */
  readonly direction: Point;
}

/** A corner this near to a cut lies on it [m]. Far below what is measured, far above rounding. */
const ON_LINE_M = 1e-7;
const INNER: PieceEdge = { kind: 'inner', upstandMm: 0, source: null };

/** One end of a stretch of outline on the left of the line. */
interface Crossing {
  /** Place along the line [m]. */
  readonly tM: number;
  /** How t changes as one leaves the line to the left: puts two stretches that meet on it in order. */
  readonly slope: number;
  readonly at: Point;
  readonly chain: number;
  readonly end: 'start' | 'end';
}

interface Chain {
  readonly points: Point[];
  readonly edges: PieceEdge[];
}

/**
 * What lies left of a straight line, as separate pieces: several where the outline bends back, none
 * where all of it lies right. Edges keep their kind and the edge they come from; new edges along the
 * line are 'inner', except where an edge of the outline itself runs along it.
 * @param piece simple outline, counter-clockwise
 * @returns pieces counter-clockwise; with those right of the line they add up to the whole
 * @source boundary stretches left of the line, paired in order along it (even-odd rule)
 */
export function cutLeft(piece: OutlinePiece, line: CutLine): readonly OutlinePiece[] {
  const { points, edges } = piece;
  const n = points.length;
  const across = leftOf(line.direction);
  const offM = points.map((p) => {
    const d = dot(minus(p, line.through), across);
    return Math.abs(d) <= ON_LINE_M ? 0 : d;
  });
  const firstOff = offM.findIndex((d) => d <= 0);
  if (firstOff < 0) return [piece];
  if (!offM.some((d) => d > 0)) return [];

  const chains: Chain[] = [];
  let open: Chain | null = null;
  for (let k = 0; k < n; k += 1) {
    const i = (firstOff + k) % n;
    const j = (i + 1) % n;
    const [a, b, da, db] = [points[i]!, points[j]!, offM[i]!, offM[j]!];
    if (da <= 0 && db > 0) {
      open = { points: [da === 0 ? a : crossingOf(a, b, da, db), b], edges: [edges[i]!] };
      chains.push(open);
    } else if (da > 0 && open !== null) {
      open.points.push(db >= 0 ? b : crossingOf(a, b, da, db));
      open.edges.push(edges[i]!);
      if (db <= 0) open = null;
    }
  }
  return join(chains, line, edgesAlong(piece, offM, line));
}

/** Both sides of a line. */
export function cutBoth(
  piece: OutlinePiece,
  line: CutLine,
): { readonly left: readonly OutlinePiece[]; readonly right: readonly OutlinePiece[] } {
  const [x, y] = line.direction;
  return { left: cutLeft(piece, line), right: cutLeft(piece, { ...line, direction: [-x, -y] }) };
}

function crossingOf(a: Point, b: Point, da: number, db: number): Point {
  // Worked from the lower end always, so that both sides of a cut get the very same point.
  const [low, high, dl, dh] = da < db ? [a, b, da, db] : [b, a, db, da];
  const share = dl / (dl - dh);
  return [low[0] + (high[0] - low[0]) * share, low[1] + (high[1] - low[1]) * share];
}

interface Stretch {
  readonly fromM: number;
  readonly toM: number;
  readonly edge: PieceEdge;
}

/** Edges of the outline that run along the line with the inside on its left. */
function edgesAlong(piece: OutlinePiece, offM: readonly number[], line: CutLine): Stretch[] {
  const found: Stretch[] = [];
  piece.points.forEach((a, i) => {
    const j = (i + 1) % piece.points.length;
    if (offM[i] !== 0 || offM[j] !== 0) return;
    const fromM = dot(minus(a, line.through), line.direction);
    const toM = dot(minus(piece.points[j]!, line.through), line.direction);
    if (toM > fromM) found.push({ fromM, toM, edge: piece.edges[i]! });
  });
  return found.sort((a, b) => a.fromM - b.fromM);
}

/** Closes the stretches along the line: neighbours in order along it bound the inside between them. */
function join(chains: readonly Chain[], line: CutLine, onLine: readonly Stretch[]): OutlinePiece[] {
  const across = leftOf(line.direction);
  const crossings: Crossing[] = chains.flatMap((chain, c) => {
    const last = chain.points.length - 1;
    const of = (at: Point, inner: Point, end: 'start' | 'end'): Crossing => {
      const away = minus(inner, at);
      const tM = dot(minus(at, line.through), line.direction);
      return { tM, slope: dot(away, line.direction) / dot(away, across), at, chain: c, end };
    };
    return [
      of(chain.points[0]!, chain.points[1]!, 'start'),
      of(chain.points[last]!, chain.points[last - 1]!, 'end'),
    ];
  });
  crossings.sort((a, b) => a.tM - b.tM || a.slope - b.slope);
  // In each pair one stretch comes down to the line and the other goes up: the edge runs from end to start.
  const next = new Map<number, { readonly to: Crossing; readonly from: Crossing }>();
  for (let i = 0; i + 1 < crossings.length; i += 2) {
    const [a, b] = [crossings[i]!, crossings[i + 1]!];
    if (a.end === b.end) throw new RangeError(`outline is not simple near ${a.at}`);
    const [from, to] = a.end === 'end' ? [a, b] : [b, a];
    next.set(from.chain, { from, to });
  }
  const used = new Set<number>();
  const pieces: OutlinePiece[] = [];
  for (let c = 0; c < chains.length; c += 1) {
    if (used.has(c)) continue;
    const points: Point[] = [];
    const edges: PieceEdge[] = [];
    for (let at = c; !used.has(at); ) {
      used.add(at);
      const chain = chains[at]!;
      const { from, to } = next.get(at)!;
      points.push(...chain.points.slice(0, -1));
      edges.push(...chain.edges);
      for (const step of alongLine(from, to, onLine, line)) {
        points.push(step.at);
        edges.push(step.edge);
      }
      at = to.chain;
    }
    if (signedAreaM2(points) > 0) pieces.push({ points, edges });
  }
  return pieces;
}

/** The new edge from one stretch to the next, broken up where the outline itself runs along the line. */
function alongLine(
  from: Crossing,
  to: Crossing,
  onLine: readonly Stretch[],
  line: CutLine,
): { readonly at: Point; readonly edge: PieceEdge }[] {
  // A corner that only touches the line: the stretches meet in it and nothing lies between.
  if (distanceM(from.at, to.at) <= ON_LINE_M) return [];
  const steps: { at: Point; edge: PieceEdge }[] = [];
  let atM = from.tM;
  const place = (tM: number): Point =>
    Math.abs(tM - from.tM) <= ON_LINE_M ? from.at : along(line.through, line.direction, tM);
  for (const stretch of onLine) {
    if (stretch.toM <= from.tM + ON_LINE_M || stretch.fromM >= to.tM - ON_LINE_M) continue;
    if (stretch.fromM > atM + ON_LINE_M) steps.push({ at: place(atM), edge: INNER });
    steps.push({ at: place(Math.max(atM, stretch.fromM)), edge: stretch.edge });
    atM = stretch.toM;
  }
  if (atM < to.tM - ON_LINE_M) steps.push({ at: place(atM), edge: INNER });
  return steps;
}

/** True where a piece has no corner that bends back; straight joints are allowed. */
export function isConvex(points: readonly Point[]): boolean {
  const n = points.length;
  return points.every((b, i) => {
    const [a, c] = [points[(i + n - 1) % n]!, points[(i + 1) % n]!];
    return cross(minus(b, a), minus(c, b)) >= -1e-9;
  });
}
