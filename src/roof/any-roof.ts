import { pieceOf } from './outline/bands.ts';
import { checkRoof } from './outline/check-roof.ts';
import type { DrawnRoof } from './outline/drawing.ts';
import { rises } from './outline/kinds.ts';
import { outlineRoof, type ReadRoof } from './outline/outline-roof.ts';
import { pieceOnSurface } from './outline/surface.ts';
import type { OutlineIssue, OutlineRoof } from './outline/types.ts';
import { distanceM, leftOf, signedAreaM2, towards } from './outline/vectors.ts';
import { outerId } from './outline-edges.ts';
import { UPSTAND_USUAL_MM } from './practice.ts';
import { rectangleOutline } from './rectangle-outline.ts';
import type { Roof } from './types.ts';

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

/** What is wrong with, or to be said of, a roof. @throws RangeError on a rectangle with a size out of range */
export function roofIssues(roof: AnyRoof): readonly OutlineIssue[] {
  if (isDrawn(roof)) return readOnce(roof).issues;
  const water = checkRoof(outlineOf(roof).areas, ['roof']);
  const goesUp = Object.values(roof.edges).includes('abutment');
  if (!goesUp || roof.upstandMm >= UPSTAND_USUAL_MM) return water;
  const message = `Upstand is ${roof.upstandMm} mm; ${UPSTAND_USUAL_MM} mm or more is usual. Kept as given.`;
  return [{ path: 'roof.upstandMm', message, level: 'warn', at: null }, ...water];
}

const rectangles = new WeakMap<Roof, OutlineRoof>();

/** The outline of any roof. @throws RangeError where `roofIssues` refuses something, or on a size out of range */
export function outlineOf(roof: AnyRoof): OutlineRoof {
  if (!isDrawn(roof)) {
    const known = rectangles.get(roof) ?? rectangleOutline(roof);
    rectangles.set(roof, known);
    return known;
  }
  const drawn = readOnce(roof);
  if (drawn.roof === null) {
    throw new RangeError(drawn.issues.map((issue) => issue.message).join(' '));
  }
  return drawn.roof;
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

export function roofLie(anyRoof: AnyRoof): RoofLie {
  const roof = outlineOf(anyRoof);
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
        id: outerId(area, i),
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
