import { UPSTAND_USUAL_MM } from '../practice.ts';
import { metres, place } from './check-outline.ts';
import type { DrawnArea } from './drawing.ts';
import { rises } from './kinds.ts';
import { edgesOf, sidesOf } from './shapes.ts';
import { OUTLINE_EDGE_KINDS, type OutlineEdge, type OutlineIssue, type Point } from './types.ts';
import { distanceM, middle } from './vectors.ts';

/** Edges of an area in the order of its points, and what is wrong with them; an edge in doubt is left as a verge. */
export function checkEdges(
  area: DrawnArea,
  points: readonly Point[],
  path: string,
  name: string,
): { readonly edges: readonly OutlineEdge[]; readonly issues: OutlineIssue[] } {
  const issues: OutlineIssue[] = [];
  const first = points[0] ?? null;
  const sides = sidesOf(area.shape);
  const byName = !Array.isArray(area.edges);
  const said = edgesOf(area, points.length);
  if (said.tooMany > 0)
    issues.push({
      path,
      message: `${name} has ${points.length} edges, but ${said.tooMany + points.length} are typed.`,
      level: 'refuse',
      at: first,
    });
  for (const side of said.strange)
    issues.push({
      path: `${path}.${side}`,
      message:
        sides.length === 0
          ? `${name} is a free polygon: its edges are a list, one for each point; '${side}' is none of them.`
          : `${name} has no side '${side}'; it has ${sides.join(', ')}.`,
      level: 'refuse',
      at: first,
    });
  const edges = said.edges.map((edge, i): OutlineEdge => {
    const [a, b] = [points[i]!, points[(i + 1) % points.length]!];
    const at = middle(a, b);
    const side = sides[i];
    const edgePath = `${path}.${byName && side !== undefined ? side : i}`;
    const label = `${side === undefined ? `Edge ${i + 1}` : `Side '${side}'`} of ${name}`;
    const add = (level: OutlineIssue['level'], message: string): void => {
      issues.push({ path: edgePath, message, level, at });
    };
    if (edge.kind === null) {
      const where = `${metres(distanceM(a, b))} long, middle at ${place(at)}`;
      add(
        'refuse',
        `${label} (${where}) has no type; it must be one of ${OUTLINE_EDGE_KINDS.join(', ')}.`,
      );
      return { kind: 'verge', upstandMm: 0 };
    }
    const { kind } = edge;
    const named = side === undefined ? {} : { side };
    if (!rises(kind)) {
      if (edge.upstandMm !== null && edge.upstandMm !== 0)
        add(
          'refuse',
          `${label} is of type ${kind} with an upstand of ${edge.upstandMm} mm; where the sheet goes up it is a kerb, abutment, parapet or boundary.`,
        );
      return { kind, upstandMm: 0, ...named };
    }
    const upstandMm = edge.upstandMm ?? UPSTAND_USUAL_MM;
    if (upstandMm < UPSTAND_USUAL_MM)
      add(
        'warn',
        `${label} has an upstand of ${upstandMm} mm; ${UPSTAND_USUAL_MM} mm or more is usual. Kept as given.`,
      );
    return { kind, upstandMm, ...named };
  });
  return { edges, issues };
}
