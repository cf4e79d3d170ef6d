import { atMeets, layingOrder, type Meet, meetsOf } from './area-order.ts';
import { cornersByDay, patchedCorners } from './bay-corners.ts';
import type { LaidPiece, LayingBay } from './bay-take-off.ts';
import { shareFeatures } from './outline/bands.ts';
import { measureRoof, type RoofMeasures } from './outline/measure.ts';
import type { Feature, OutlinePiece, OutlineRoof, Point, RoofArea } from './outline/types.ts';
import { distanceM, dot, leftOf, towards } from './outline/vectors.ts';
import { layPieces, pieceTakeOff, sumTakeOffs } from './outline-take-off.ts';
import type { SheetEdge, SheetEdgeKind, SheetPart } from './sheets/types.ts';
import { lyingFeatures, type SplitArea, splitArea } from './split-area.ts';
import { spreadFeatures } from './spread-features.ts';
import type { TakeOffOptions } from './take-off-options.ts';

/** A piece of one day with its sheet edges; both have the same corners. */
interface DayPiece {
  readonly piece: OutlinePiece;
  readonly part: SheetPart;
}

interface Day {
  readonly area: number;
  /** Whether its area takes other days, too. */
  readonly ofMany: boolean;
  readonly areaM2: number;
  readonly pieces: readonly DayPiece[];
  readonly warnings: readonly string[];
}

/**
 * The laying days of a roof, area by area, each in working order. Areas are laid as drawn, but for the
 * sheet that runs on past a common line: its area comes first, see `layingOrder`.
 * @param maxBayM2 largest bay [m2], above 0
 * @param placed   false where the places of features are only counted, not known
 */
export function outlineBays(
  roof: OutlineRoof,
  maxBayM2: number,
  placed: boolean,
): readonly LayingBay[] {
  const splits = roof.areas.map((area) =>
    splitArea(area, maxBayM2, { access: roof.access, placed }),
  );
  const one = splits.every(({ bays }) => bays.length === 1);
  const standing = placed || one ? roof : spread(roof, splits);
  const measures = measuresOf(standing);
  const met = measures.sharedEdges;
  const order = layingOrder(roof.areas.length, met);
  const days = order.flatMap((place): readonly Day[] => {
    const area = standing.areas[place]!;
    return daysOf(area, place, splits[place]!, meetsOf(area, place, order, met));
  });
  const corners = cornersByDay(
    patchedCorners(roof, measures),
    days.map(({ area, pieces }) => ({ area, pieces: pieces.map(({ piece }) => piece) })),
  );
  const many = roof.areas.length > 1;
  return days.map((day, d): LayingBay => {
    const area = roof.areas[day.area]!;
    const { bonding } = measures.areas[day.area]!;
    const parts = day.pieces.map(({ part }) => part);
    const laid = oncePerOptions((options): readonly LaidPiece[] =>
      layPieces(roof, area, parts, day.ofMany, options),
    );
    return {
      number: d + 1,
      of: days.length,
      areaM2: day.areaM2,
      standing: parts.reduce((sum, part) => sum + part.features.length, 0),
      alike: alike(day, corners[d]!.length),
      nightSealM: parts.reduce((sum, part) => sum + edgeM(part, 'next-bay'), 0),
      laid,
      takeOff: oncePerOptions((options) => {
        const summed = sumTakeOffs(
          laid(options).map((piece, i) => pieceTakeOff(piece, day.pieces[i]!.piece, bonding, many)),
        );
        const warnings = [...summed.warnings, ...day.warnings];
        return { ...summed, corners: corners[d]!, warnings };
      }),
    };
  });
}

function spread(roof: OutlineRoof, splits: readonly SplitArea[]): OutlineRoof {
  const areas = roof.areas.map((area, a) => ({
    ...area,
    features: spreadFeatures(area, splits[a]!.bays),
  }));
  return { ...roof, areas };
}

const measured = new WeakMap<OutlineRoof, RoofMeasures>();

function measuresOf(roof: OutlineRoof): RoofMeasures {
  const known = measured.get(roof) ?? measureRoof(roof);
  measured.set(roof, known);
  return known;
}

/** A day's sheets are asked for by its list, its materials and its drawing: they are laid out once. */
function oncePerOptions<T>(make: (options: TakeOffOptions) => T): (options?: TakeOffOptions) => T {
  const known = new Map<string, T>();
  return (options = {}) => {
    const key = JSON.stringify(options);
    const found = known.get(key) ?? make(options);
    known.set(key, found);
    return found;
  };
}

/** Places are told to the millimetre and from the first corner on: nothing that is counted changes within it. */
function alike({ area, pieces }: Day, corners: number): string {
  const [x0, y0] = pieces[0]!.part.points[0]!;
  const mm = ([x, y]: Point): string =>
    `${Math.round((x - x0) * 1000)},${Math.round((y - y0) * 1000)}`;
  const told = pieces.flatMap(({ part: { points, edges, features } }) => [
    ...points.map((p, i) => `${mm(p)} ${edges[i]!.kind} ${edges[i]!.upstandMm}`),
    ...features.map(
      (f) => `${mm(f.at)} ${f.kind} ${f.sizeM.join('x')} ${f.upstandMm} ${f.turnDeg ?? 0}`,
    ),
    '',
  ]);
  return [area, corners, ...told].join(';');
}

function daysOf(
  area: RoofArea,
  place: number,
  split: SplitArea,
  meets: readonly Meet[],
): readonly Day[] {
  const all = split.bays.flatMap(({ pieces }) => pieces);
  const shares = shareFeatures(all, lyingFeatures(area));
  const inWay = new Set(split.through.map(({ id }) => id));
  let at = 0;
  return split.bays.map(({ pieces, areaM2 }): Day => {
    const own = pieces.map((piece) => {
      at += 1;
      return dayPiece(area, piece, shares[at - 1]!, split, meets);
    });
    const warnings = own
      .flatMap(({ part }) => part.features.filter(({ id }) => inWay.has(id)))
      .map(({ id }) => `The edge between two days runs through or close by ${id}. Kept.`);
    return { area: place, ofMany: split.bays.length > 1, areaM2, pieces: own, warnings };
  });
}

function dayPiece(
  area: RoofArea,
  cut: OutlinePiece,
  features: readonly Feature[],
  split: SplitArea,
  meets: readonly Meet[],
): DayPiece {
  const { piece, as } = atMeets(cut, meets);
  const edges = piece.edges.map((edge, i): SheetEdge => {
    const { upstandMm } = edge;
    if (edge.kind === 'shared') return as[i] ?? { kind: 'next-bay', upstandMm: 0 };
    if (edge.kind !== 'inner') return { kind: edge.kind, upstandMm };
    const to = piece.points[(i + 1) % piece.points.length]!;
    const [x, y] = leftOf(towards(piece.points[i]!, to));
    // What lies beyond a cut comes later down the fall and ahead along the row, and was laid before elsewhere.
    const beyond = [-x, -y] as const;
    const later = dot(beyond, split.down) > 0.5 || dot(beyond, split.ahead) > 0.5;
    return { kind: later ? 'next-bay' : 'earlier-bay', upstandMm: 0 };
  });
  const { fallDeg, fallPlanDeg } = area;
  return { piece, part: { points: piece.points, edges, fallDeg, fallPlanDeg, features } };
}

function edgeM({ points, edges }: SheetPart, kind: SheetEdgeKind): number {
  return edges.reduce((sum, edge, i) => {
    const to = points[(i + 1) % points.length]!;
    return sum + (edge.kind === kind ? distanceM(points[i]!, to) : 0);
  }, 0);
}
