import { metres, place } from './check-outline.ts';
import { common, type Rings, ringsAreaM2 } from './polygons.ts';
import { SAME_LINE_M, type SharedEdge, sharedEdges } from './shared-edges.ts';
import { dropPerM } from './surface.ts';
import type { OutlineIssue, Point, RoofArea } from './types.ts';
import { distanceM, leftOf, middle, perimeterM, signedAreaM2, towards } from './vectors.ts';

/** Surfaces that part by more than this along a shared edge leave a gap under the sheet [m]. */
const HEIGHTS_PART_M = 0.02;

/** What is wrong between areas that are sound by themselves. `paths` name each area in the file. */
export function checkRoof(areas: readonly RoofArea[], paths: readonly string[]): OutlineIssue[] {
  const met = sharedEdges(
    areas,
    areas.map((area) => signedAreaM2(area.points)),
  );
  return [
    ...overlaps(areas, paths),
    ...sharedIssues(areas, paths, met),
    ...waterIssues(areas, paths),
  ];
}

function overlaps(areas: readonly RoofArea[], paths: readonly string[]): OutlineIssue[] {
  const issues: OutlineIssue[] = [];
  areas.forEach((b, j) => {
    areas.slice(0, j).forEach((a) => {
      const both = common([a.points], [b.points]);
      const areaM2 = ringsAreaM2(both);
      const roundM = both.reduce((sum, ring) => sum + perimeterM(ring), 0);
      // Drawn to the millimetre, neighbours may overlap by a hair: half a length times this is let pass.
      if (areaM2 <= (SAME_LINE_M * roundM) / 2) return;
      const at = within(both);
      issues.push({
        path: paths[j]!,
        message: `${a.name} and ${b.name} overlap by ${Number(areaM2.toFixed(3))} m2 round ${place(at)}.`,
        level: 'refuse',
        at,
      });
    });
  });
  return issues;
}

/** A place inside the largest ring: the middle of its longest way across at half height. */
function within(rings: Rings): Point {
  const ring = rings.reduce((a, b) => (signedAreaM2(b) > signedAreaM2(a) ? b : a));
  const ys = ring.map((p) => p[1]).sort((a, b) => a - b);
  // Halfway between two neighbouring heights no corner is hit.
  const gap = ys
    .slice(1)
    .reduce(
      (best, y, i) => (y - ys[i]! > best.size ? { size: y - ys[i]!, at: (y + ys[i]!) / 2 } : best),
      { size: 0, at: ys[0]! },
    );
  const xs = ring
    .flatMap((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      if (a[1] > gap.at === b[1] > gap.at) return [];
      return [a[0] + ((b[0] - a[0]) * (gap.at - a[1])) / (b[1] - a[1])];
    })
    .sort((a, b) => a - b);
  let best: Point = middle(ring[0]!, ring[1] ?? ring[0]!);
  let widestM = 0;
  for (let i = 0; i + 1 < xs.length; i += 2) {
    if (xs[i + 1]! - xs[i]! <= widestM) continue;
    widestM = xs[i + 1]! - xs[i]!;
    best = [(xs[i]! + xs[i + 1]!) / 2, gap.at];
  }
  return best;
}

function sharedIssues(
  areas: readonly RoofArea[],
  paths: readonly string[],
  met: readonly SharedEdge[],
): OutlineIssue[] {
  const issues: OutlineIssue[] = [];
  areas.forEach((area, i) => {
    area.edges.forEach((edge, e) => {
      if (edge.kind !== 'shared') return;
      const mine = met.flatMap((s) => {
        if (s.one.area === i && s.one.edge === e) return [{ ...s, next: s.other }];
        if (s.other.area === i && s.other.edge === e) return [{ ...s, next: s.one }];
        return [];
      });
      const [a, b] = [area.points[e]!, area.points[(e + 1) % area.points.length]!];
      const path = `${paths[i]}.edges.${e}`;
      const coveredM = mine.reduce((sum, s) => sum + s.lengthM, 0);
      const openM = distanceM(a, b) - coveredM;
      if (openM > 2 * SAME_LINE_M) {
        const at = uncovered(a, b, mine);
        const message = `Edge ${e + 1} of ${area.name} is of type shared, but for ${metres(openM)} round ${place(at)} no other area lies along it.`;
        issues.push({ path, message, level: 'refuse', at });
      }
      for (const s of mine) {
        const other = areas[s.next.area]!;
        if (other.edges[s.next.edge]!.kind !== 'shared') {
          const at = middle(s.from, s.to);
          const message = `Edge ${e + 1} of ${area.name} is of type shared, but edge ${s.next.edge + 1} of ${other.name} along it is of type ${other.edges[s.next.edge]!.kind}; both must be shared, or neither.`;
          issues.push({ path, message, level: 'refuse', at });
        } else if (s.one.area === i && s.one.edge === e && s.heightsPartM > HEIGHTS_PART_M) {
          const at = middle(s.from, s.to);
          const message = `${area.name} and ${other.name} fall differently along the edge they share: over its ${metres(s.lengthM)} they part by ${Math.round(s.heightsPartM * 1000)} mm in height. Kept as given.`;
          issues.push({ path, message, level: 'warn', at });
        }
      }
    });
  });
  return issues;
}

/** Middle of the longest stretch of a to b that nothing lies along. */
function uncovered(a: Point, b: Point, along: readonly SharedEdge[]): Point {
  const lengthM = distanceM(a, b);
  const places = along
    .map(
      (s) => [distanceM(a, s.from), distanceM(a, s.to)].sort((x, y) => x - y) as [number, number],
    )
    .sort((x, y) => x[0] - y[0]);
  let best: readonly [number, number] = [0, 0];
  let reachedM = 0;
  for (const [fromM, toM] of [...places, [lengthM, lengthM] as [number, number]]) {
    if (fromM - reachedM > best[1] - best[0]) best = [reachedM, fromM];
    reachedM = Math.max(reachedM, toM);
  }
  const direction = towards(a, b);
  const m = (best[0] + best[1]) / 2;
  return [a[0] + direction[0] * m, a[1] + direction[1] * m];
}

/** Water must have a way off each area: an outlet, or a gutter or shared edge that it runs to. */
function waterIssues(areas: readonly RoofArea[], paths: readonly string[]): OutlineIssue[] {
  return areas.flatMap((area, i): OutlineIssue[] => {
    if (area.features.some((f) => f.kind === 'outlet')) return [];
    const ways = area.edges.map((edge, e) => {
      if (edge.kind !== 'gutter' && edge.kind !== 'shared') return 'none';
      const direction = towards(area.points[e]!, area.points[(e + 1) % area.points.length]!);
      const outwards = leftOf([-direction[0], -direction[1]]);
      return area.fallDeg === 0 || dropPerM(area, outwards) > 1e-4 ? 'out' : 'uphill';
    });
    if (ways.includes('out')) return [];
    const message = ways.includes('uphill')
      ? `Water runs away from every gutter of ${area.name}, and it has no outlet: nothing takes the water off. Kept as given.`
      : `${area.name} has no gutter and no outlet: nothing takes the water off. Kept as given.`;
    return [{ path: paths[i]!, message, level: 'warn', at: area.points[0]! }];
  });
}
