import { pieceOf } from './outline/bands.ts';
import type { DrawnRoof } from './outline/drawing.ts';
import { rises } from './outline/kinds.ts';
import { outlineRoof, type ReadRoof } from './outline/outline-roof.ts';
import { pieceOnSurface } from './outline/surface.ts';
import type { OutlineIssue, OutlineRoof } from './outline/types.ts';
import { distanceM, leftOf, signedAreaM2, towards } from './outline/vectors.ts';
import { sideLengthM } from './take-off.ts';
import type { EdgeSide, Roof } from './types.ts';

/** A roof as a job holds it: a rectangle by its sizes, or a drawing. */
export type AnyRoof = Roof | DrawnRoof;

export const isDrawn = (roof: AnyRoof): roof is DrawnRoof => 'areas' in roof;

/** Drawings are kept as written and asked often; each is read once. */
const read = new WeakMap<DrawnRoof, ReadRoof>();

function readOnce(drawn: DrawnRoof): ReadRoof {
  const known = read.get(drawn) ?? outlineRoof(drawn, 'roof');
  read.set(drawn, known);
  return known;
}

/** What is wrong with, or to be said of, a roof; [] for a rectangle, whose sizes say it all. */
export function roofIssues(roof: AnyRoof): readonly OutlineIssue[] {
  return isDrawn(roof) ? readOnce(roof).issues : [];
}

/** @throws RangeError where `roofIssues` refuses something */
export function checkedOutline(drawn: DrawnRoof): OutlineRoof {
  const { roof, issues } = readOnce(drawn);
  if (roof === null) {
    throw new RangeError(issues.map((issue) => issue.message).join(' '));
  }
  return roof;
}

/** What the weather on a roof depends on. */
export interface RoofLie {
  readonly areaM2: number;
  readonly fallDeg: number;
  /** Direction the water runs to, 0 = north, 90 = east; of the largest area. */
  readonly fallAzimuthDeg: number;
  /** The longest edge the sheet goes up, and the direction its face looks to; null where there is none. */
  readonly upstand: { readonly id: string; readonly azimuthDeg: number } | null;
  readonly hasKerbs: boolean;
}

export function roofLie(roof: AnyRoof): RoofLie {
  return isDrawn(roof) ? drawnLie(checkedOutline(roof)) : rectangleLie(roof);
}

function rectangleLie(roof: Roof): RoofLie {
  const sides = (['high', 'left', 'right', 'low'] as const).filter(
    (side) => roof.edges[side] === 'abutment',
  );
  const longest = sides.reduce<EdgeSide | null>(
    (best, side) =>
      best === null || sideLengthM(roof, side) > sideLengthM(roof, best) ? side : best,
    null,
  );
  // Looking up the fall from the low edge, `left` lies a quarter turn anticlockwise of the way up.
  const turnDeg = { high: 0, left: 270, low: 180, right: 90 } as const;
  return {
    areaM2: roof.lengthM * roof.widthM,
    fallDeg: roof.fallDeg,
    fallAzimuthDeg: roof.fallAzimuthDeg,
    upstand:
      longest === null
        ? null
        : { id: longest, azimuthDeg: (roof.fallAzimuthDeg + turnDeg[longest]) % 360 },
    hasKerbs: roof.rooflights > 0,
  };
}

function drawnLie(roof: OutlineRoof): RoofLie {
  const areasM2 = roof.areas.map((area) =>
    signedAreaM2(pieceOnSurface(pieceOf(area), area).points),
  );
  const largest = roof.areas[areasM2.indexOf(Math.max(...areasM2))]!;
  let upstand: RoofLie['upstand'] = null;
  let longestM = 0;
  for (const area of roof.areas) {
    area.edges.forEach((edge, i) => {
      const [a, b] = [area.points[i]!, area.points[(i + 1) % area.points.length]!];
      if (!rises(edge.kind) || distanceM(a, b) <= longestM) return;
      longestM = distanceM(a, b);
      const [x, y] = leftOf(towards(a, b));
      upstand = {
        id: `${area.id}-${i + 1}`,
        azimuthDeg: compass((Math.atan2(x, y) * 180) / Math.PI + roof.northDeg),
      };
    });
  }
  return {
    areaM2: areasM2.reduce((sum, m2) => sum + m2, 0),
    fallDeg: largest.fallDeg,
    fallAzimuthDeg: compass(largest.fallPlanDeg + roof.northDeg),
    upstand,
    hasKerbs: roof.areas.some((area) => area.features.some(({ kind }) => kind === 'rooflight')),
  };
}

const compass = (deg: number): number => ((deg % 360) + 360) % 360;
