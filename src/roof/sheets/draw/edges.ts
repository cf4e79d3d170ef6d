import type { Point } from '../../outline/types.ts';
import type { SheetPart } from '../types.ts';
import { EDGE_STYLES } from './kinds.ts';
import { boxAround, type Candidate, type Places } from './place.ts';
import { escapeText, num, textWidth } from './text.ts';
import { boxesAlong, LINE, line, TEXT, type View } from './view.ts';

const TICK_EVERY = 7;
const TICK_OUT = 5;

interface EdgeOnPage {
  readonly a: Point;
  readonly b: Point;
  readonly along: Point;
  readonly out: Point;
  readonly units: number;
  readonly lengthM: number;
  readonly kind: SheetPart['edges'][number]['kind'];
}

function edgesOnPage(part: SheetPart, view: View): EdgeOnPage[] {
  const n = part.points.length;
  return part.points.map((p, i): EdgeOnPage => {
    const q = part.points[(i + 1) % n]!;
    const [a, b] = [view.at(p), view.at(q)];
    const units = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const along: Point = [(b[0] - a[0]) / units, (b[1] - a[1]) / units];
    // The page has y down, so outwards of a counter-clockwise outline is on the left here.
    const out: Point = [-along[1], along[0]];
    const lengthM = Math.hypot(q[0] - p[0], q[1] - p[1]);
    return { a, b, along, out, units, lengthM, kind: part.edges[i]!.kind };
  });
}

export function drawEdges(part: SheetPart, view: View): string {
  return edgesOnPage(part, view)
    .map(({ a, b, along, out, units, kind }) => {
      const style = EDGE_STYLES[kind];
      const dash = style.dash === '' ? '' : ` stroke-dasharray="${style.dash}"`;
      const drawn = line(a, b, `stroke-width="${style.stroke}"${dash}`);
      if (!style.ticks) return drawn;
      let d = '';
      for (let t = TICK_EVERY / 2; t < units; t += TICK_EVERY) {
        const x = a[0] + along[0] * t;
        const y = a[1] + along[1] * t;
        const dx = (out[0] - along[0]) * TICK_OUT * 0.7;
        const dy = (out[1] - along[1]) * TICK_OUT * 0.7;
        d += `M${num(x)} ${num(y)}l${num(dx)} ${num(dy)}`;
      }
      return `${drawn}<path d="${d}" stroke-width="0.8"/>`;
    })
    .join('');
}

interface LabelPlace {
  readonly x: number;
  readonly y: number;
  readonly upright: boolean;
  readonly leader: boolean;
}

export function keepOffEdges(part: SheetPart, view: View, places: Places): void {
  for (const { a, b } of edgesOnPage(part, view)) places.lines.push(...boxesAlong(a, b, 5));
}

/** Length and letter of every edge, outside it; a short edge's on a leader where there is room. */
export function labelEdges(part: SheetPart, view: View, places: Places, done: Set<string>): string {
  const edges = edgesOnPage(part, view).filter(({ a, b }) => {
    // A line shared by two areas is labelled once.
    const key = `${num((a[0] + b[0]) / 2)} ${num((a[1] + b[1]) / 2)}`;
    const fresh = !done.has(key);
    done.add(key);
    return fresh;
  });
  return edges
    .toSorted((e, f) => f.units - e.units)
    .map((edge) => {
      const text = `${edge.lengthM.toFixed(2)} ${EDGE_STYLES[edge.kind].letter}`;
      const { value } = places.take(labelPlaces(edge, textWidth(text, TEXT)));
      const turn = value.upright ? ` transform="rotate(-90 ${num(value.x)} ${num(value.y)})"` : '';
      const middle: Point = [(edge.a[0] + edge.b[0]) / 2, (edge.a[1] + edge.b[1]) / 2];
      const lead = value.leader ? line(middle, [value.x, value.y], 'stroke-width="0.5"') : '';
      return `${lead}<text x="${num(value.x)}" y="${num(value.y)}"${turn} class="halo">${escapeText(text)}</text>`;
    })
    .join('');
}

function labelPlaces(edge: EdgeOnPage, width: number): Candidate<LabelPlace>[] {
  const { a, b, along, out, units } = edge;
  const steep = Math.abs(along[1]) > 0.97;
  const candidates: Candidate<LabelPlace>[] = [];
  const offer = (x: number, y: number, upright: boolean, leader: boolean): void => {
    const box = upright ? boxAround(x, y, LINE - 2, width) : boxAround(x, y, width, LINE - 2);
    const reach = Math.hypot(x - (a[0] + b[0]) / 2, y - (a[1] + b[1]) / 2);
    const dislike = leader ? 10 + reach : 0;
    candidates.push({ box, value: { x, y, upright, leader }, dislike });
  };
  for (const upright of steep ? [true, false] : [false]) {
    const half: Point = upright ? [LINE / 2, width / 2] : [width / 2, LINE / 2];
    // How far out the middle must be for the box to stand clear of the edge.
    const clear = Math.abs(out[0]) * half[0] + Math.abs(out[1]) * half[1] + 5;
    for (const off of [0, 8, 16, 26]) {
      for (const share of [0.5, 0.35, 0.65, 0.2, 0.8]) {
        const far = off > 0 && units < width * 1.5;
        const x = a[0] + (b[0] - a[0]) * share + out[0] * (clear + off);
        const y = a[1] + (b[1] - a[1]) * share + out[1] * (clear + off);
        offer(x, y, upright, far);
      }
    }
  }
  // On the roof's own side, too, where a recess leaves no room outside.
  for (const side of [1, -1]) {
    for (const off of [4, 14, 24, 36, 50]) {
      for (const slide of [0, -1, 1, -2, 2, -3, 3]) {
        const clear = Math.abs(out[0]) * (width / 2) + Math.abs(out[1]) * (LINE / 2) + off;
        const aside = slide * (Math.abs(along[0]) * width + Math.abs(along[1]) * LINE) * 0.5;
        const x = (a[0] + b[0]) / 2 + out[0] * clear * side + along[0] * aside;
        const y = (a[1] + b[1]) / 2 + out[1] * clear * side + along[1] * aside;
        offer(x, y, false, true);
      }
    }
  }
  return candidates;
}
