import { featureOutline } from '../outline/features.ts';
import { sheetAtEdge } from '../outline/kinds.ts';
import type { Feature, Point } from '../outline/types.ts';
import { NIGHT_SEAL_STRIP_M, UPSTAND_TRIM_M } from '../practice.ts';
import { planVector } from './frame.ts';
import { type Region, widen } from './region.ts';
import { LARGE_OPENING_M } from './rules.ts';
import type { SheetEdge, SheetPart } from './types.ts';

/** A part with straight runs joined: a corner on a straight edge of one kind changes nothing. */
export interface Ground {
  readonly points: readonly Point[];
  readonly edges: readonly SheetEdge[];
  /** What the sheet is cut over the net size at each edge [m]. */
  readonly allowancesM: readonly number[];
  /** Everything sheeted: outline, allowances, less large openings. */
  readonly region: Region;
  /** Area left open inside large rooflights [m2]. */
  readonly openM2: number;
}

/** What the sheet is cut over the net size at an edge, and for what [m]. */
export interface Allowance {
  readonly upM: number;
  readonly downM: number;
  readonly trimM: number;
  /** Onto the next bay or area; below 0 where that one's sheet comes onto this part. */
  readonly onwardM: number;
}

/** At a line shared with the next area each area's sheet runs half a lap over it. */
export function allowanceAt(edge: SheetEdge, lapM: number): Allowance {
  if (edge.kind === 'next-bay' || edge.kind === 'earlier-bay') {
    const pastM = edge.runOnM ?? 0;
    const onwardM = edge.kind === 'next-bay' ? pastM + lapM + NIGHT_SEAL_STRIP_M : -pastM;
    return { upM: 0, downM: 0, trimM: 0, onwardM };
  }
  const onwardM = edge.kind === 'shared' ? lapM / 2 : 0;
  return { ...sheetAtEdge(edge.kind, edge.upstandMm), onwardM };
}

export function isInnerEdge(edge: SheetEdge): boolean {
  return edge.kind === 'next-bay' || edge.kind === 'earlier-bay' || edge.kind === 'shared';
}

export function groundOf(part: SheetPart, lapM: number): Ground {
  const { points, edges } = joinStraights(part);
  const allowancesM = edges.map((edge) => {
    const { upM, downM, trimM, onwardM } = allowanceAt(edge, lapM);
    return upM + downM + trimM + onwardM;
  });
  const { loops, simple } = widen(points, allowancesM);
  const holes = part.features.map(largeOpening).filter((f) => f !== null);
  const openM2 = holes.reduce((sum, { sizeM }) => sum + sizeM[0] * sizeM[1], 0);
  const region = {
    loops: [...loops, ...holes.map((hole) => featureOutline(hole).toReversed())],
    simple,
  };
  return { points, edges, allowancesM, region, openM2 };
}

/** The opening that need not be sheeted: a large rooflight's, less what turns up its kerb. */
function largeOpening(f: Feature): Feature | null {
  if (f.kind !== 'rooflight') return null;
  const kerbM = f.upstandMm / 1000 + UPSTAND_TRIM_M;
  const sizeM = [f.sizeM[0] - 2 * kerbM, f.sizeM[1] - 2 * kerbM] as const;
  return Math.min(...sizeM) >= LARGE_OPENING_M ? { ...f, sizeM } : null;
}

function joinStraights(part: SheetPart): Pick<Ground, 'points' | 'edges'> {
  const n = part.points.length;
  const kept = part.points.map((p, i) => {
    const before = part.points[(i + n - 1) % n]!;
    const after = part.points[(i + 1) % n]!;
    const a = [p[0] - before[0], p[1] - before[1]] as const;
    const b = [after[0] - p[0], after[1] - p[1]] as const;
    const lengths = Math.hypot(...a) * Math.hypot(...b);
    const bend = Math.abs(a[0] * b[1] - a[1] * b[0]) / lengths;
    const from = part.edges[(i + n - 1) % n]!;
    const to = part.edges[i]!;
    const onward = a[0] * b[0] + a[1] * b[1] > 0;
    const alike =
      from.kind === to.kind && from.upstandMm === to.upstandMm && from.runOnM === to.runOnM;
    return !(bend < 1e-6 && onward && alike);
  });
  return {
    points: part.points.filter((_, i) => kept[i]),
    edges: part.edges.filter((_, i) => kept[i]),
  };
}

export function edgeLengthM(ground: Ground, i: number): number {
  const p = ground.points[i]!;
  const q = ground.points[(i + 1) % ground.points.length]!;
  return Math.hypot(q[0] - p[0], q[1] - p[1]);
}

/** Plan directions worth trying for the rolls: along and across each main edge and the fall [deg]. */
export function directionsToTry(ground: Ground, part: SheetPart): number[] {
  const lengths = ground.points.map((_, i) => edgeLengthM(ground, i));
  const longest = Math.max(...lengths);
  const totals: { deg: number; m: number }[] = [];
  // Longest first, so that edges almost alike go by the longest of them, whichever is listed first.
  const order = lengths.map((_, i) => i).sort((a, b) => lengths[b]! - lengths[a]!);
  for (const i of order) {
    const [p, q] = [ground.points[i]!, ground.points[(i + 1) % ground.points.length]!];
    const deg = quarter(Math.atan2(q[0] - p[0], q[1] - p[1]) / (Math.PI / 180));
    const same = totals.find((t) => near(t.deg, deg, 90));
    if (same === undefined) totals.push({ deg, m: lengths[i]! });
    else same.m += lengths[i]!;
  }
  totals.sort((a, b) => b.m - a.m);
  const main = totals.filter((t) => t.m >= longest / 4).slice(0, MOST_EDGE_DIRECTIONS);
  const bases = main.map((t) => t.deg);
  if (part.fallDeg > 0) {
    const [x, y] = planVector(part.fallPlanDeg);
    const fall = quarter(Math.atan2(x, y) / (Math.PI / 180));
    if (!bases.some((deg) => near(deg, fall, 90))) bases.push(fall);
  }
  return bases.flatMap((deg) => [deg, deg + 90]);
}

const MOST_EDGE_DIRECTIONS = 3;

/** Whether every edge runs along or across a direction [deg]. */
export function isSquareTo(ground: Ground, deg: number): boolean {
  return ground.points.every((p, i) => {
    const q = ground.points[(i + 1) % ground.points.length]!;
    const off = quarter(Math.atan2(q[0] - p[0], q[1] - p[1]) / (Math.PI / 180) - deg);
    return Math.min(off, 90 - off) < 1e-3;
  });
}

function quarter(deg: number): number {
  const turned = ((deg % 90) + 90) % 90;
  return turned > 90 - 1e-7 ? 0 : turned;
}

function near(a: number, b: number, period: number): boolean {
  const apart = Math.abs(a - b) % period;
  return Math.min(apart, period - apart) < 0.5;
}
