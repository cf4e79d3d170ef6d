import { featureOutline } from '../../outline/features.ts';
import type { Feature, Point } from '../../outline/types.ts';
import { isInside } from '../../outline/vectors.ts';
import { planVector } from '../frame.ts';
import type { SheetPart } from '../types.ts';
import { boxAround, type Candidate, type Places } from './place.ts';
import { num, textWidth } from './text.ts';
import { LINE, path, TEXT, type View } from './view.ts';

/** Smallest a feature is drawn, half its size [units]. */
const LEAST_HALF = 3.2;

/** Outlet = ring with a cross; pipe = ring with a dot; rooflight = crossed rectangle. */
export function drawFeature(feature: Feature, view: View): string {
  const [x, y] = view.at(feature.at);
  if (feature.kind === 'rooflight') {
    const [a, b, c, d] = featureOutline(feature).map(view.at) as [Point, Point, Point, Point];
    const cross = `M${num(a[0])} ${num(a[1])}L${num(c[0])} ${num(c[1])}M${num(b[0])} ${num(b[1])}L${num(d[0])} ${num(d[1])}`;
    return `<path d="${path([a, b, c, d])}" fill="#fff" stroke-width="1"/><path d="${cross}" stroke-width="0.5"/>`;
  }
  const r = Math.max(LEAST_HALF, (feature.sizeM[0] / 2) * view.unitsPerM);
  const ring = `<circle cx="${num(x)}" cy="${num(y)}" r="${num(r)}" fill="#fff" stroke-width="1"/>`;
  if (feature.kind === 'pipe') {
    return `${ring}<circle cx="${num(x)}" cy="${num(y)}" r="1.1" fill="#000" stroke="none"/>`;
  }
  const h = num(r * 0.7);
  return `${ring}<path d="M${num(x)} ${num(y)}m-${h} -${h}l${num(r * 1.4)} ${num(r * 1.4)}m0 -${num(r * 1.4)}l-${num(r * 1.4)} ${num(r * 1.4)}" stroke-width="1"/>`;
}

export function keepOffFeatures(part: SheetPart, view: View, places: Places): void {
  for (const feature of part.features) {
    const [x, y] = view.at(feature.at);
    const half = feature.sizeM.map((m) => Math.max(LEAST_HALF + 1, (m / 2) * view.unitsPerM));
    places.lines.push(boxAround(x, y, 2 * half[0]!, 2 * half[1]!));
  }
}

/** An arrow the way the water runs, with the fall beside it. */
export function drawFall(part: SheetPart, view: View, places: Places): string {
  if (part.fallDeg <= 0) return '';
  const text = `fall 1:${Math.round(1 / Math.tan((part.fallDeg * Math.PI) / 180))}`;
  const width = textWidth(text, TEXT);
  const [dx, dy] = planVector(part.fallPlanDeg);
  const half = Math.min(22, 0.3 * Math.max(...spanUnits(part, view)));
  const arrowW = Math.abs(dx) * 2 * half + 8;
  const arrowH = Math.abs(dy) * 2 * half + 8;
  // Text above a level arrow, beside a steep one.
  const beside = arrowH > arrowW;
  const w = beside ? arrowW + width : Math.max(arrowW, width);
  const h = beside ? Math.max(arrowH, LINE) : arrowH + LINE;
  const { value } = places.take(
    grid(part, view).map((p): Candidate<Point> => ({ box: boxAround(p[0], p[1], w, h), value: p })),
  );
  const [x, y]: Point = beside ? [value[0] - width / 2, value[1]] : [value[0], value[1] + LINE / 2];
  const text0: Point = beside
    ? [value[0] + arrowW / 2 - 1, value[1]]
    : [value[0], value[1] - arrowH / 2];
  const [tx, ty] = [x + dx * half, y - dy * half];
  const head = `M${num(tx)} ${num(ty)}L${num(tx - dx * 8 - dy * 4)} ${num(ty + dy * 8 - dx * 4)}L${num(tx - dx * 8 + dy * 4)} ${num(ty + dy * 8 + dx * 4)}Z`;
  return (
    `<path d="M${num(x - dx * half)} ${num(y + dy * half)}L${num(tx)} ${num(ty)}" stroke-width="1.4"/>` +
    `<path d="${head}" fill="#000" stroke="none"/>` +
    `<text x="${num(text0[0])}" y="${num(text0[1])}" class="halo">${text}</text>`
  );
}

function spanUnits(part: SheetPart, view: View): [number, number] {
  const xs = part.points.map((p) => p[0]);
  const ys = part.points.map((p) => p[1]);
  return [
    (Math.max(...xs) - Math.min(...xs)) * view.unitsPerM,
    (Math.max(...ys) - Math.min(...ys)) * view.unitsPerM,
  ];
}

/** Places on the roof, middle first. */
function grid(part: SheetPart, view: View): Point[] {
  const xs = part.points.map((p) => p[0]);
  const ys = part.points.map((p) => p[1]);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const all: Point[] = [];
  for (const v of SHARES) {
    for (const u of SHARES) all.push([x0 + (x1 - x0) * u, y0 + (y1 - y0) * v]);
  }
  const inside = all.filter((p) => isInside(p, part.points));
  return (inside.length > 0 ? inside : all).map(view.at);
}

const SHARES = [0.5, 0.25, 0.75, 0.38, 0.62, 0.12, 0.88];
