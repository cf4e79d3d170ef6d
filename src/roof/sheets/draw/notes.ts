import type { Point } from '../../outline/types.ts';
import type { SheetEdgeKind } from '../types.ts';
import type { DrawnIssue } from './drawing.ts';
import { drawFeature } from './features.ts';
import { EDGE_STYLES } from './kinds.ts';
import { boxAround, type Candidate, type Places } from './place.ts';
import { escapeText, num, textWidth, wrap } from './text.ts';
import { LINE, line, MARGIN, TEXT, type View, WIDTH } from './view.ts';

/** A drawing's own block of lines below the roof, and how high it is. */
export interface Block {
  readonly svg: string;
  readonly height: number;
}

export function northArrow(northDeg: number, x: number, y: number): string {
  return (
    `<g transform="translate(${num(x)} ${num(y)}) rotate(${num(-northDeg)})">` +
    `<path d="M0 10L0 -4" stroke-width="1.2"/><path d="M0 -10L4 0L0 -3L-4 0Z" fill="#000" stroke-width="0.6"/></g>` +
    `<text x="${num(x - 17)}" y="${num(y)}">N</text>`
  );
}

/** A round length of about a quarter of the width. */
export function scaleBar(view: View, y: number): string {
  const most = (WIDTH * 0.3) / view.unitsPerM;
  const power = 10 ** Math.floor(Math.log10(most));
  const lengthM = ([5, 2, 1].find((k) => k * power <= most) ?? 1) * power;
  const units = lengthM * view.unitsPerM;
  const half = units / 2;
  const label = `${lengthM} m`;
  return (
    `<path d="M${MARGIN} ${num(y - 3)}h${num(units)}v6h${num(-units)}Z" fill="#fff" stroke-width="0.8"/>` +
    `<path d="M${MARGIN} ${num(y - 3)}h${num(half)}v6h${num(-half)}Z" fill="#000" stroke="none"/>` +
    `<text x="${num(MARGIN + units + 6)}" y="${num(y)}" class="left">${label}</text>`
  );
}

interface Entry {
  readonly text: string;
  readonly sample: (x: number, y: number) => string;
}

const SAMPLE = 26;

export function legend(
  kinds: readonly SheetEdgeKind[],
  features: ReadonlySet<'outlet' | 'pipe' | 'rooflight'>,
  has: {
    readonly laps: boolean;
    readonly sheets: boolean;
    readonly tJoints: boolean;
    readonly sections: boolean;
  },
  top: number,
): Block {
  const entries = kinds.map((kind): Entry => {
    const { letter, name, stroke, dash, ticks } = EDGE_STYLES[kind];
    const dashed = dash === '' ? '' : ` stroke-dasharray="${dash}"`;
    const marks = ticks ? '<path d="MX Yl-4 -4m8 4l-4 -4m8 4l-4 -4" stroke-width="0.8"/>' : '';
    return {
      text: `${letter} ${name}`,
      sample: (x, y) =>
        line([x, y], [x + SAMPLE, y], `stroke-width="${stroke}"${dashed}`) +
        marks.replace('X', num(x + 7)).replace('Y', num(y)),
    };
  });
  const plain: View = { unitsPerM: 10, heightUnits: 0, top: 0, at: (p) => p };
  for (const kind of ['outlet', 'pipe', 'rooflight'] as const) {
    if (!features.has(kind)) continue;
    const sizeM = kind === 'rooflight' ? ([12, 8] as const) : ([0.2, 0.2] as const);
    entries.push({
      text: kind,
      sample: (x, y) =>
        drawFeature({ id: '', kind, at: [x + SAMPLE / 2, y], sizeM, upstandMm: 0 }, plain),
    });
  }
  if (has.laps) {
    entries.push({
      text: 'lap',
      sample: (x, y) =>
        [-1.3, 1.3]
          .map((d) => line([x, y + d], [x + SAMPLE, y + d], 'stroke-width="0.8"'))
          .join(''),
    });
  }
  if (has.tJoints) {
    entries.push({
      text: 'T-joint',
      sample: (x, y) => `<circle cx="${num(x + SAMPLE / 2)}" cy="${num(y)}" r="2.6" fill="#000"/>`,
    });
  }
  if (has.sheets) {
    entries.push({
      text: 'cut line',
      sample: (x, y) =>
        line([x, y], [x + SAMPLE, y], 'stroke-width="0.6" stroke-dasharray="1.5 2"'),
    });
    entries.push({
      text: 'sheet, in order',
      sample: (x, y) =>
        `<circle cx="${num(x + SAMPLE / 2)}" cy="${num(y)}" r="6" fill="#fff" stroke-width="0.9"/>`,
    });
  }
  if (has.sections) {
    entries.push({
      text: 'section',
      sample: (x, y) =>
        line(
          [x, y],
          [x + SAMPLE, y],
          'stroke-width="1.6" stroke-dasharray="1 4" stroke-linecap="round"',
        ),
    });
  }
  return columns(entries, top);
}

function columns(entries: readonly Entry[], top: number): Block {
  let x = MARGIN;
  let y = top + LINE / 2;
  let svg = '';
  for (const { text, sample } of entries) {
    const width = SAMPLE + 5 + textWidth(text, TEXT) + 12;
    if (x + width > WIDTH - MARGIN + 12 && x > MARGIN) {
      x = MARGIN;
      y += LINE + 2;
    }
    svg += `${sample(x, y)}<text x="${num(x + SAMPLE + 5)}" y="${num(y)}" class="left">${escapeText(text)}</text>`;
    x += width;
  }
  return { svg, height: entries.length === 0 ? 0 : y - top + LINE / 2 };
}

/** White numbers on black squares at their places. */
export function markIssues(issues: readonly DrawnIssue[], view: View, places: Places): string {
  return issues
    .map(({ at }, i) => {
      if (at === null) return '';
      const [x, y] = view.at(at);
      const candidates = [0, 14, 24].flatMap((r) =>
        [0, 45, 90, 135, 180, 225, 270, 315].map((deg): Candidate<Point> => {
          const p: Point = [
            x + r * Math.cos((deg * Math.PI) / 180),
            y + r * Math.sin((deg * Math.PI) / 180),
          ];
          return { box: boxAround(p[0], p[1], numberWidth(i), LINE), value: p };
        }),
      );
      const { value } = places.take(candidates);
      const lead = line([x, y], value, 'stroke-width="0.6"');
      return `${lead}${issueNumber(i, value)}`;
    })
    .join('');
}

function numberWidth(i: number): number {
  return textWidth(String(i + 1), TEXT) + 7;
}

function issueNumber(i: number, [x, y]: Point): string {
  const w = numberWidth(i);
  return (
    `<rect x="${num(x - w / 2)}" y="${num(y - 7)}" width="${num(w)}" height="14" fill="#000" stroke="none"/>` +
    `<text x="${num(x)}" y="${num(y)}" class="white">${i + 1}</text>`
  );
}

export function listIssues(issues: readonly DrawnIssue[], top: number): Block {
  let y = top;
  let svg = '';
  const indent = MARGIN + 26;
  issues.forEach(({ message }, i) => {
    svg += issueNumber(i, [MARGIN + 9, y + LINE / 2]);
    for (const text of wrap(message, TEXT, WIDTH - MARGIN - indent)) {
      svg += `<text x="${indent}" y="${num(y + LINE / 2)}" class="left">${escapeText(text)}</text>`;
      y += LINE;
    }
    y += 3;
  });
  return { svg, height: y - top };
}
