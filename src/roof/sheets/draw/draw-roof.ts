import type { Point } from '../../outline/types.ts';
import type { SheetEdgeKind } from '../types.ts';
import { describeRoof } from './describe.ts';
import type { DrawnIssue, DrawnPart, DrawnSection, RoofDrawing } from './drawing.ts';
import { drawEdges, keepOffEdges, labelEdges } from './edges.ts';
import { drawFall, drawFeature, keepOffFeatures } from './features.ts';
import { EDGE_STYLES } from './kinds.ts';
import { legend, listIssues, markIssues, northArrow, scaleBar } from './notes.ts';
import { boxAround, type Candidate, Places } from './place.ts';
import { drawSheets, keepOffLaps, numberSheets } from './sheets.ts';
import { escapeText, num, textWidth, wrap } from './text.ts';
import { LINE, MARGIN, path, TEXT, type View, viewOf, WIDTH } from './view.ts';

/**
 * A drawing of a roof and its sheets, black on white: every edge with its length and kind, fall, features,
 * laps, numbered sheets, sections, north, scale, and what is wrong where. Kinds are told apart by letter
 * and line, never by colour.
 * @param drawing sizes in metres in one system of plan coordinates; at least one part
 * @returns an SVG document 390 units wide and as high as needed; all text escaped
 * @throws RangeError without a part, or on an id of other characters
 */
export function drawRoof(drawing: RoofDrawing): string {
  const { parts, sections = [], issues = [], id = 'roof' } = drawing;
  if (parts.length === 0) throw new RangeError('a drawing needs at least one part of a roof');
  if (!/^[A-Za-z][A-Za-z0-9-]*$/.test(id)) {
    throw new RangeError(`id is '${id}'; letters, digits and hyphens are accepted, a letter first`);
  }
  const heading = wrap(drawing.title, HEADING, WIDTH - 2 * MARGIN - 40);
  const top = MARGIN + Math.max(26, heading.length * (LINE + 2));
  const view = viewOf(
    parts.flatMap(({ part }) => part.points),
    top,
  );
  const bottom = top + view.heightUnits;
  const places = new Places({ x0: 2, y0: top, x1: WIDTH - 2, y1: bottom });
  const roof = drawAll(drawing, sections, issues, view, places, id);
  const barY = bottom + LINE / 2;
  const key = legend(kindsIn(parts), featuresIn(parts), shownIn(parts, sections), barY + LINE);
  const list = listIssues(issues, barY + LINE + key.height + 6);
  const height = barY + LINE + key.height + 6 + list.height + MARGIN / 2;
  const title = heading
    .map((text, i) => {
      const y = MARGIN + LINE / 2 + i * (LINE + 2);
      return `<text x="${MARGIN}" y="${num(y)}" class="left" font-size="${HEADING}" font-weight="700">${escapeText(text)}</text>`;
    })
    .join('');
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${num(height)}" role="img" aria-labelledby="${id}-title ${id}-desc" class="roof-drawing">` +
    `<title id="${id}-title">${escapeText(drawing.title)}</title>` +
    `<desc id="${id}-desc">${escapeText(describeRoof(drawing))}</desc>` +
    `<style>${STYLE}</style>` +
    `<rect width="${WIDTH}" height="${num(height)}" fill="#fff"/>` +
    `<g fill="none" stroke="#000" font-size="${TEXT}">` +
    `${title}${northArrow(drawing.northDeg, WIDTH - MARGIN - 12, MARGIN + 12)}${roof}` +
    `${scaleBar(view, barY)}${key.svg}${list.svg}</g></svg>`
  );
}

const HEADING = 13;

const STYLE = [
  '.roof-drawing text{fill:#000;stroke:none;font-family:Arial,Helvetica,sans-serif;text-anchor:middle;dominant-baseline:central}',
  '.roof-drawing .left{text-anchor:start}',
  '.roof-drawing .white{fill:#fff;font-weight:700}',
  '.roof-drawing .halo{paint-order:stroke;stroke:#fff;stroke-width:3px;stroke-linejoin:round}',
].join('');

function drawAll(
  drawing: RoofDrawing,
  sections: readonly DrawnSection[],
  issues: readonly DrawnIssue[],
  view: View,
  places: Places,
  id: string,
): string {
  const { parts } = drawing;
  let lines = '';
  let texts = '';
  const labelled = new Set<string>();
  for (const { part, layout } of parts) {
    keepOffFeatures(part, view, places);
    keepOffEdges(part, view, places);
    if (layout !== null) keepOffLaps(layout, view, places);
  }
  parts.forEach(({ part, layout }, i) => {
    if (layout !== null) lines += drawSheets(layout, view, `${id}-cut-${i + 1}`);
    lines += part.features.map((f) => drawFeature(f, view)).join('');
  });
  for (const { part } of parts) lines += drawEdges(part, view);
  for (const { points } of sections) {
    lines += `<path d="${path(points.map(view.at))}" stroke-width="1.6" stroke-dasharray="1 4" stroke-linecap="round"/>`;
  }
  // What has least choice of place comes first.
  texts += markIssues(issues, view, places);
  for (const { part } of parts) texts += labelEdges(part, view, places, labelled);
  for (const { part } of parts) texts += drawFall(part, view, places);
  for (const section of sections) texts += labelSection(section, view, places);
  for (const { part, layout } of parts) {
    if (layout !== null) texts += numberSheets(layout, part, view, places);
  }
  return lines + texts;
}

function labelSection({ label, points }: DrawnSection, view: View, places: Places): string {
  const on = points.map(view.at);
  const [x0, x1] = [Math.min(...on.map((p) => p[0])), Math.max(...on.map((p) => p[0]))];
  const [y0, y1] = [Math.min(...on.map((p) => p[1])), Math.max(...on.map((p) => p[1]))];
  const width = textWidth(label, TEXT) + 4;
  const spots: Candidate<Point>[] = [];
  for (const v of [0.15, 0.85, 0.3, 0.7, 0.5]) {
    for (const u of [0.2, 0.8, 0.5, 0.35, 0.65]) {
      const p: Point = [x0 + (x1 - x0) * u, y0 + (y1 - y0) * v];
      spots.push({ box: boxAround(p[0], p[1], width, LINE), value: p });
    }
  }
  const { value } = places.take(spots);
  return `<text x="${num(value[0])}" y="${num(value[1])}" class="halo" font-weight="700">${escapeText(label)}</text>`;
}

function kindsIn(parts: readonly DrawnPart[]): SheetEdgeKind[] {
  const used = new Set(parts.flatMap(({ part }) => part.edges.map((e) => e.kind)));
  return (Object.keys(EDGE_STYLES) as SheetEdgeKind[]).filter((kind) => used.has(kind));
}

function featuresIn(parts: readonly DrawnPart[]): Set<'outlet' | 'pipe' | 'rooflight'> {
  return new Set(parts.flatMap(({ part }) => part.features.map((f) => f.kind)));
}

function shownIn(
  parts: readonly DrawnPart[],
  sections: readonly DrawnSection[],
): Parameters<typeof legend>[2] {
  const layouts = parts.map((p) => p.layout).filter((layout) => layout !== null);
  return {
    laps: layouts.some((l) => l.laps.length > 0),
    tJoints: layouts.some((l) => l.tJoints.length > 0),
    sheets: layouts.length > 0,
    sections: sections.length > 0,
  };
}
