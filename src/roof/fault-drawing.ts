import type { DrawnRoof } from './outline/drawing.ts';
import { outlineRoof } from './outline/outline-roof.ts';
import { edgesOf, pointsOf } from './outline/shapes.ts';
import type { OutlineIssue } from './outline/types.ts';
import { drawRoof } from './sheets/index.ts';
import type { SheetPart } from './sheets/types.ts';

/**
 * A roof as it is drawn so far, sound or not, with everything found marked at its place.
 * @returns the SVG, null where not one area has a corner to draw; and the issues as `outlineRoof` finds them
 */
export function drawAsWritten(
  drawn: DrawnRoof,
  title: string,
): { readonly drawing: string | null; readonly issues: readonly OutlineIssue[] } {
  const { issues } = outlineRoof(drawn, 'roof');
  const parts = drawn.areas.flatMap((area): SheetPart[] => {
    const points = pointsOf(area.shape);
    if (points.length < 2) return [];
    const { edges } = edgesOf(area, points.length);
    return [
      {
        points,
        edges: edges.map(({ kind, upstandMm }) => ({
          // Without a type it is drawn as the plainest line; the fault says that it has none.
          kind: kind ?? 'verge',
          upstandMm: upstandMm ?? 0,
        })),
        fallDeg: area.fallDeg,
        fallPlanDeg: area.fallPlanDeg,
        features: area.features.map((f) => ({ ...f, upstandMm: f.upstandMm ?? 0 })),
      },
    ];
  });
  if (parts.length === 0) return { drawing: null, issues };
  const drawing = drawRoof({
    title,
    northDeg: drawn.northDeg,
    parts: parts.map((part) => ({ part, layout: null })),
    issues: issues.map(({ at, message }) => ({ at, message })),
  });
  return { drawing, issues };
}
