import type { RoofDrawing } from './drawing.ts';
import { EDGE_STYLES } from './kinds.ts';

/** What the drawing shows, in sentences, for those who cannot see it. */
export function describeRoof(drawing: RoofDrawing): string {
  const said: string[] = [];
  drawing.parts.forEach(({ part, layout }, i) => {
    const n = part.points.length;
    const edges = part.points.map((p, k) => {
      const q = part.points[(k + 1) % n]!;
      const lengthM = Math.hypot(q[0] - p[0], q[1] - p[1]);
      return `${EDGE_STYLES[part.edges[k]!.kind].name} ${lengthM.toFixed(2)} m`;
    });
    const name = drawing.parts.length > 1 ? `Part ${i + 1}` : 'The roof';
    said.push(`${name} has ${n} edges: ${edges.join(', ')}.`);
    for (const kind of ['outlet', 'pipe', 'rooflight'] as const) {
      const count = part.features.filter((f) => f.kind === kind).length;
      if (count > 0) said.push(`${count} ${kind}${count === 1 ? '' : 's'}.`);
    }
    if (layout === null) return;
    const { sheets, figures } = layout;
    const sizes = sheets.map(
      (s) => `sheet ${s.number} ${s.lengthM.toFixed(2)} by ${s.widthM.toFixed(2)} m`,
    );
    said.push(`It is laid in this order: ${sizes.join(', ')}.`);
    said.push(`Laps ${figures.lapM.toFixed(2)} m, T-joints ${figures.tJoints}.`);
  });
  const sections = drawing.sections ?? [];
  if (sections.length > 0) said.push(`Sections: ${sections.map((s) => s.label).join(', ')}.`);
  (drawing.issues ?? []).forEach(({ message }, i) => {
    said.push(`Note ${i + 1}: ${message}`);
  });
  return said.join(' ');
}
