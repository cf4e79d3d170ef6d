import type { BayEdge, BaySheet, BayTakeOff, LaidPiece } from './bay-take-off.ts';
import { pieceOf } from './outline/bands.ts';
import { type BondingAreas, bondingWithin } from './outline/bonding.ts';
import { common, ringsAreaM2, united } from './outline/polygons.ts';
import { pieceOnSurface } from './outline/surface.ts';
import type {
  OutlineEdgeKind,
  OutlinePiece,
  OutlineRoof,
  Point,
  RoofArea,
} from './outline/types.ts';
import { dot, minus } from './outline/vectors.ts';
import { edgeId, edgesOf } from './outline-edges.ts';
import { ROLL_LENGTH_M } from './practice.ts';
import { layOutOutlineSheets, type OutlineSheetOptions } from './sheets/lay-out-sheets.ts';
import type { OutlineLayout, Sheet, SheetPart } from './sheets/types.ts';
import type { TakeOffOptions } from './take-off-options.ts';

/** Rolls run the same way over a whole area, so that the bays' courses go on in one another. */
export function layPieces(
  roof: OutlineRoof,
  area: RoofArea,
  parts: readonly SheetPart[],
  ofMany: boolean,
  options: TakeOffOptions,
): readonly LaidPiece[] {
  const offer = sheetOptions(options, roof.access);
  const own = options.choices?.[area.id] ?? {};
  const { rollsRunDeg = ofMany ? mainDirection(area, offer) : undefined } = own;
  // Moved or fixed courses are measured over the whole area and mean nothing to a part of it.
  const choices = ofMany ? {} : own;
  const left = ofMany && (own.shiftM !== undefined || (own.sheets ?? []).length > 0);
  return parts.map((part) => {
    const layout = layOutOutlineSheets(part, {
      ...offer,
      choices: { ...choices, ...(rollsRunDeg === undefined ? {} : { rollsRunDeg }) },
    });
    const notes = left ? [...layout.notes, notMoved(area)] : layout.notes;
    return { area, part, layout: { ...layout, notes } };
  });
}

const notMoved = ({ name, id }: RoofArea): string =>
  `${name === '' ? id : name} is laid over several days: the way its sheets run is kept, moved or fixed sheets are not.`;

function sheetOptions(
  { sheetWidthsM, rollLengthM, lapM }: TakeOffOptions,
  access: Point | null,
): OutlineSheetOptions {
  return {
    access,
    ...(sheetWidthsM === undefined
      ? {}
      : {
          rolls: sheetWidthsM.map((widthM) => ({ widthM, lengthM: rollLengthM ?? ROLL_LENGTH_M })),
        }),
    ...(lapM === undefined ? {} : { lapM }),
  };
}

const directions = new WeakMap<RoofArea, Map<string, number>>();

function mainDirection(area: RoofArea, offer: OutlineSheetOptions): number {
  const known = directions.get(area) ?? new Map<string, number>();
  directions.set(area, known);
  const key = JSON.stringify(offer);
  const found = known.get(key);
  if (found !== undefined) return found;
  const { points, edges } = pieceOnSurface(pieceOf(area), area);
  const deg = layOutOutlineSheets(
    {
      ...area,
      points,
      edges: edges.map((edge) => ({ ...edge, kind: edge.kind as OutlineEdgeKind })),
    },
    offer,
  ).rollsRunDeg;
  known.set(key, deg);
  return deg;
}

/**
 * Quantities of one piece; its corners are counted with the roof's.
 * @param many the roof has several areas, so that their names are needed
 */
export function pieceTakeOff(
  { area, part, layout }: LaidPiece,
  piece: OutlinePiece,
  bonding: BondingAreas,
  many: boolean,
): BayTakeOff {
  const edges = edgesOf(area, part, piece, many);
  const within = bondingWithin(bonding, piece);
  // Made one first: rectangles that run opposite ways round would cancel where they cross.
  const laps = united(layout.laps.map(({ corners }) => corners));
  const lapsM2 = ringsAreaM2(common(within.field, laps));
  const of = (kind: 'outlet' | 'pipe' | 'rooflight') =>
    part.features.filter((feature) => feature.kind === kind);
  return {
    areaM2: within.fieldM2 + within.stripM2,
    fieldM2: Math.max(0, within.fieldM2 - lapsM2),
    edges: [...edges.values()],
    corners: [],
    sheets: layout.sheets.map((sheet) => sheetOf(area, sheet, part, piece, layout, edges)),
    laps: layout.laps.map(({ number, kind, lengthM, over, under }) => ({
      number,
      kind,
      lengthM,
      sheets: [...over, ...under],
    })),
    tJoints: layout.tJoints.length,
    outlets: of('outlet').length,
    pipes: of('pipe').length,
    kerbs: of('rooflight').map(({ id, sizeM, upstandMm }) => ({
      name: id.startsWith('rooflight') ? id : `rooflight ${id}`,
      aroundM: 2 * (sizeM[0] + sizeM[1]),
      upstandMm,
      corners: 4,
    })),
    warnings: layout.notes,
  };
}

/** Where two pieces lie in one bay, their sheets and laps are counted through. */
export function sumTakeOffs(list: readonly BayTakeOff[]): BayTakeOff {
  const first = list[0];
  if (first !== undefined && list.length === 1) return first;
  const edges = new Map<string, BayEdge>();
  for (const edge of list.flatMap((t) => t.edges)) {
    const before = edges.get(edge.id);
    edges.set(edge.id, { ...edge, lengthM: edge.lengthM + (before?.lengthM ?? 0) });
  }
  let [sheets, laps] = [0, 0];
  const numbered = list.map((t) => {
    const [s, l] = [sheets, laps];
    sheets += t.sheets.length;
    laps += t.laps.length;
    return {
      sheets: t.sheets.map((sheet) => ({ ...sheet, number: sheet.number + s })),
      laps: t.laps.map((lap) => ({
        ...lap,
        number: lap.number + l,
        sheets: lap.sheets.map((n) => n + s),
      })),
    };
  });
  const sum = (of: (t: BayTakeOff) => number): number =>
    list.reduce((total, t) => total + of(t), 0);
  return {
    areaM2: sum((t) => t.areaM2),
    fieldM2: sum((t) => t.fieldM2),
    edges: [...edges.values()],
    corners: list.flatMap((t) => t.corners),
    sheets: numbered.flatMap((t) => t.sheets),
    laps: numbered.flatMap((t) => t.laps),
    tJoints: sum((t) => t.tJoints),
    outlets: sum((t) => t.outlets),
    pipes: sum((t) => t.pipes),
    kerbs: list.flatMap((t) => t.kerbs),
    warnings: [...new Set(list.flatMap((t) => t.warnings))],
  };
}

function sheetOf(
  area: RoofArea,
  sheet: Sheet,
  part: SheetPart,
  piece: OutlinePiece,
  { axes }: OutlineLayout,
  edges: ReadonlyMap<string, BayEdge>,
): BaySheet {
  const middleM = (sheet.fromM + sheet.toM) / 2;
  const touched = (fromM: number, toM: number): string[] => {
    const ids = part.points.flatMap((a, i) => {
      const b = part.points[(i + 1) % part.points.length]!;
      const place = (p: Point): Point => [dot(p, axes.along), dot(p, axes.across)];
      const box = [fromM, toM, sheet.startM, sheet.startM + sheet.widthM] as const;
      return crosses(place(a), place(b), box) ? [edgeId(area, part, piece, i)] : [];
    });
    return [...new Set(ids)].filter((id) => edges.has(id));
  };
  return {
    number: sheet.number,
    cutM2: sheet.lengthM * sheet.widthM,
    lengthM: sheet.lengthM,
    widthM: sheet.widthM,
    halves: [touched(sheet.fromM, middleM), touched(middleM, sheet.toM)],
  };
}

/** A stretch of edge shorter than this under a sheet is a corner that it brushes [m]. */
const LEAST_TOUCH_M = 0.02;

/** Liang-Barsky: does a segment run through a box, for more than a brush? */
function crosses(
  a: Point,
  b: Point,
  [x0, x1, y0, y1]: readonly [number, number, number, number],
): boolean {
  const [dx, dy] = minus(b, a);
  let [from, to] = [0, 1];
  for (const [p, q] of [
    [-dx, a[0] - x0],
    [dx, x1 - a[0]],
    [-dy, a[1] - y0],
    [dy, y1 - a[1]],
  ] as const) {
    if (p === 0) {
      if (q < 0) return false;
      continue;
    }
    if (p < 0) from = Math.max(from, q / p);
    else to = Math.min(to, q / p);
  }
  return (to - from) * Math.hypot(dx, dy) > LEAST_TOUCH_M;
}
