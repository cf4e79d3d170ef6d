import type { Point } from '../../outline/types.ts';
import { isInside } from '../../outline/vectors.ts';
import type { OutlineLayout, Sheet, SheetPart } from '../types.ts';
import { boxAround, type Candidate, type Places } from './place.ts';
import { num, textWidth } from './text.ts';
import { boxesAlong, line, path, TEXT, type View } from './view.ts';

/** Half the distance between the two lines of a lap, at least [units]. */
const LAP_HALF = 1.3;

/** The cut line round the allowances, and laps as double lines inside it. */
export function drawSheets(layout: OutlineLayout, view: View, id: string): string {
  const loops = layout.covered.map((loop) => path(loop.map(view.at))).join('');
  const laps = layout.laps.map(({ corners }) => doubleLine(corners, view)).join('');
  const dots = layout.tJoints
    .map(view.at)
    .map(([x, y]) => `<circle cx="${num(x)}" cy="${num(y)}" r="2.6" fill="#000"/>`)
    .join('');
  return (
    `<clipPath id="${id}"><path d="${loops}" clip-rule="nonzero"/></clipPath>` +
    `<path d="${loops}" stroke-width="0.6" stroke-dasharray="1.5 2"/>` +
    `<g clip-path="url(#${id})" stroke-width="0.8">${laps}</g>${dots}`
  );
}

export function keepOffLaps(layout: OutlineLayout, view: View, places: Places): void {
  for (const { corners } of layout.laps) {
    const [a, b] = middleLine(corners.map(view.at));
    places.lines.push(...boxesAlong(a, b, 4));
  }
  for (const p of layout.tJoints) {
    const [x, y] = view.at(p);
    places.lines.push(boxAround(x, y, 8, 8));
  }
}

/** The line along the middle of a rectangle, and its width. */
function middleLine(c: readonly Point[]): readonly [Point, Point, number] {
  const length = (i: number, j: number): number =>
    Math.hypot(c[i]![0] - c[j]![0], c[i]![1] - c[j]![1]);
  const mid = (i: number, j: number): Point => [
    (c[i]![0] + c[j]![0]) / 2,
    (c[i]![1] + c[j]![1]) / 2,
  ];
  if (length(0, 1) >= length(1, 2)) return [mid(0, 3), mid(1, 2), length(1, 2)];
  return [mid(0, 1), mid(2, 3), length(0, 1)];
}

function doubleLine(corners: OutlineLayout['laps'][number]['corners'], view: View): string {
  const [a, b, width] = middleLine(corners.map(view.at));
  const units = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (units < 1e-6) return '';
  const half = Math.max(LAP_HALF, width / 2);
  const out: Point = [(-(b[1] - a[1]) / units) * half, ((b[0] - a[0]) / units) * half];
  return [1, -1]
    .map((k) =>
      line([a[0] + k * out[0], a[1] + k * out[1]], [b[0] + k * out[0], b[1] + k * out[1]], ''),
    )
    .join('');
}

/** A number in a ring on each sheet, where the sheet shows and nothing else is written. */
export function numberSheets(
  layout: OutlineLayout,
  part: SheetPart,
  view: View,
  places: Places,
): string {
  return layout.sheets
    .map((sheet) => {
      const text = String(sheet.number);
      const radius = Math.max(8.5, textWidth(text, TEXT) / 2 + 2.5);
      const { value } = places.take(spotsOn(sheet, part, view, radius));
      const [x, y] = value;
      return `<circle cx="${num(x)}" cy="${num(y)}" r="${num(radius)}" fill="#fff" stroke-width="0.9"/><text x="${num(x)}" y="${num(y)}">${text}</text>`;
    })
    .join('');
}

const SHARES = [0.5, 0.3, 0.7, 0.4, 0.6, 0.2, 0.8, 0.1, 0.9];

function spotsOn(sheet: Sheet, part: SheetPart, view: View, radius: number): Candidate<Point>[] {
  const [a, b, , d] = sheet.corners;
  const all: Point[] = [];
  for (const v of SHARES) {
    for (const u of SHARES) {
      all.push([
        a[0] + (b[0] - a[0]) * u + (d[0] - a[0]) * v,
        a[1] + (b[1] - a[1]) * u + (d[1] - a[1]) * v,
      ]);
    }
  }
  const inside = all.filter((p) => isInside(p, part.points));
  const candidates = inside.length > 0 ? inside : all;
  return candidates.map(view.at).map((value) => ({
    box: boxAround(value[0], value[1], 2 * radius, 2 * radius),
    value,
  }));
}
