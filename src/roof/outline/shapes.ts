import type { CutCorner, DrawnArea, DrawnEdge, DrawnShape, DrawnSide } from './drawing.ts';
import type { Point } from './types.ts';
import { turned } from './vectors.ts';

const NOT_SAID: DrawnEdge = { kind: null, upstandMm: null };

/** Corners of a shape in the order its edges are written. Sizes are not checked here. */
export function pointsOf(shape: DrawnShape): readonly Point[] {
  switch (shape.kind) {
    case 'polygon':
      return shape.points;
    case 'rectangle':
      return placed(rectangle(shape.lengthM, shape.widthM), shape.at, shape.turnDeg);
    case 'l-shape': {
      const { lengthM, widthM, cutLengthM, cutWidthM, cutCorner } = shape;
      const local = lShape(lengthM, widthM, cutLengthM, cutWidthM, cutCorner);
      return placed(local, shape.at, shape.turnDeg);
    }
  }
}

/** Names of a shape's edges in their order; none for a free polygon. */
export function sidesOf(shape: DrawnShape): readonly DrawnSide[] {
  switch (shape.kind) {
    case 'polygon':
      return [];
    case 'rectangle':
      return ['low', 'right', 'high', 'left'];
    case 'l-shape':
      return L_ORDER[shape.cutCorner];
  }
}

/** Edges in order, one for each point, and what was said that fits no edge. */
export function edgesOf(
  area: DrawnArea,
  count: number,
): { readonly edges: readonly DrawnEdge[]; readonly tooMany: number; readonly strange: string[] } {
  if (isList(area.edges)) {
    const list = area.edges;
    const edges = Array.from({ length: count }, (_, i) => list[i] ?? NOT_SAID);
    return { edges, tooMany: Math.max(0, list.length - count), strange: [] };
  }
  const named = area.edges;
  const sides = sidesOf(area.shape);
  const edges = Array.from({ length: count }, (_, i) => {
    const side = sides[i];
    return (side === undefined ? undefined : named[side]) ?? NOT_SAID;
  });
  const strange = Object.keys(named).filter((name) => !sides.includes(name as DrawnSide));
  return { edges, tooMany: 0, strange };
}

function isList(edges: DrawnArea['edges']): edges is readonly DrawnEdge[] {
  return Array.isArray(edges);
}

function placed(local: readonly Point[], at: Point, turnDeg: number): Point[] {
  return local.map(([x, y]) => turned([at[0] + x, at[1] + y], at, turnDeg));
}

const rectangle = (l: number, w: number): Point[] => [
  [0, 0],
  [l, 0],
  [l, w],
  [0, w],
];

/** Counter-clockwise from the low left corner, or from the first corner after it where that one is cut out. */
const L_ORDER: Readonly<Record<CutCorner, readonly DrawnSide[]>> = {
  'low-left': ['low', 'right', 'high', 'left', 'cutLength', 'cutWidth'],
  'low-right': ['low', 'cutWidth', 'cutLength', 'right', 'high', 'left'],
  'high-right': ['low', 'right', 'cutLength', 'cutWidth', 'high', 'left'],
  'high-left': ['low', 'right', 'high', 'cutWidth', 'cutLength', 'left'],
};

function lShape(l: number, w: number, cl: number, cw: number, corner: CutCorner): Point[] {
  const [x0, y0]: Point = [0, 0];
  switch (corner) {
    case 'low-left':
      return [
        [cl, y0],
        [l, y0],
        [l, w],
        [x0, w],
        [x0, cw],
        [cl, cw],
      ];
    case 'low-right':
      return [
        [x0, y0],
        [l - cl, y0],
        [l - cl, cw],
        [l, cw],
        [l, w],
        [x0, w],
      ];
    case 'high-right':
      return [
        [x0, y0],
        [l, y0],
        [l, w - cw],
        [l - cl, w - cw],
        [l - cl, w],
        [x0, w],
      ];
    case 'high-left':
      return [
        [x0, y0],
        [l, y0],
        [l, w],
        [cl, w],
        [cl, w - cw],
        [x0, w - cw],
      ];
  }
}
