import type { BayEdge } from './bay-take-off.ts';
import type { OutlineEdgeKind, OutlinePiece, RoofArea } from './outline/types.ts';
import { distanceM, dot, planDirection } from './outline/vectors.ts';
import type { SheetPart } from './sheets/types.ts';

const EDGE_WORDS: Readonly<Record<Exclude<OutlineEdgeKind, 'shared'>, string>> = {
  gutter: 'gutter edge',
  verge: 'verge',
  kerb: 'kerb edge',
  abutment: 'wall',
  parapet: 'parapet',
  boundary: 'boundary wall',
};

/** Edges of a piece by their id, stretches of one edge added up; cuts go by what they are tonight. */
export function edgesOf(
  area: RoofArea,
  part: SheetPart,
  piece: OutlinePiece,
  many: boolean,
): ReadonlyMap<string, BayEdge> {
  const edges = new Map<string, BayEdge>();
  for (const i of highestFirst(part)) {
    const { kind, upstandMm } = part.edges[i]!;
    if (kind === 'shared')
      throw new RangeError('a shared edge was not given its place in the order');
    const id = edgeId(area, part, piece, i);
    const to = part.points[(i + 1) % part.points.length]!;
    const lengthM = distanceM(part.points[i]!, to) + (edges.get(id)?.lengthM ?? 0);
    const name =
      kind === 'next-bay' || kind === 'earlier-bay'
        ? kind
        : edgeName(area, piece.edges[i]!.source!, many);
    edges.set(id, { id, name, kind, lengthM, upstandMm });
  }
  return edges;
}

/** Edges are worked from the high side down, so that water from above meets a finished edge. */
function highestFirst({ points, fallPlanDeg }: SheetPart): number[] {
  const down = planDirection(fallPlanDeg);
  const heightOf = (i: number): number =>
    dot(points[i]!, down) + dot(points[(i + 1) % points.length]!, down);
  return points.map((_, i) => i).sort((a, b) => heightOf(a) - heightOf(b) || b - a);
}

export function edgeId(area: RoofArea, part: SheetPart, piece: OutlinePiece, i: number): string {
  const { kind } = part.edges[i]!;
  if (kind === 'next-bay' || kind === 'earlier-bay') return kind;
  return outerId(area, piece.edges[i]!.source!);
}

/** Of a simple shape that is the whole roof the side's own name, else the area and the edge's number. */
export function outerId(area: RoofArea, source: number): string {
  const side = area.edges[source]!.side;
  const name = side === undefined ? String(source + 1) : side;
  return area.id === 'roof' ? name : `${area.id}-${name}`;
}

const SIDE_WORDS: Readonly<Record<string, string>> = {
  low: 'low edge',
  high: 'high edge',
  left: 'left edge',
  right: 'right edge',
  cutLength: 'inner edge along the length',
  cutWidth: 'inner edge across',
};

/** As read on a list. */
export function edgeName(area: RoofArea, source: number, many: boolean): string {
  const { side, kind } = area.edges[source]!;
  const words = side === undefined ? undefined : SIDE_WORDS[side];
  const of = area.name === '' ? area.id : area.name;
  if (words !== undefined) return many ? `${words} of ${of}` : words;
  const what = kind === 'shared' ? 'edge' : EDGE_WORDS[kind];
  return `${what} (edge ${source + 1}${many ? `, ${of}` : ''})`;
}
