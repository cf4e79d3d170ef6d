import type { ReliabilityPoint } from '../../src/planner/verification/index.ts';
import type { Judged } from './weather-judge.ts';

const SIDE = 260;
const LEFT = 52;
const TOP = 46;
const COUNTS = 62;
const WIDTH = LEFT + SIDE + 24;
const HEIGHT = TOP + SIDE + COUNTS + 66;

/** A reliability diagram with consistency bars and the number of cases below, black on white. */
export function reliabilityPicture({ variable, points, days, cases }: Judged): string {
  const x = (chance: number): number => LEFT + chance * SIDE;
  const y = (share: number): number => TOP + (1 - share) * SIDE;
  const ticks = [0, 0.2, 0.4, 0.6, 0.8, 1];
  const base = TOP + SIDE + 18 + COUNTS;
  const most = Math.max(...points.map(({ count }) => count));
  const tall = (count: number): number => (Math.log10(1 + count) / Math.log10(1 + most)) * COUNTS;
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" font-family="sans-serif" font-size="11" fill="black" stroke="black">`,
    `<title>Reliability: ${variable.name}</title>`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="white" stroke="none"/>`,
    text(LEFT, 16, `High ${variable.event}, ${variable.leadHours} h ahead`, 'start', 13),
    text(LEFT, 32, `${count(cases)} cases on ${days} days; bars: luck alone, 90 %`, 'start'),
    `<rect x="${LEFT}" y="${TOP}" width="${SIDE}" height="${SIDE}" fill="none"/>`,
    line(x(0), y(0), x(1), y(1), ' stroke-dasharray="4 3"'),
    ...ticks.flatMap((at) => [
      line(x(at), y(0), x(at), y(0) + 4),
      line(LEFT - 4, y(at), LEFT, y(at)),
      text(LEFT - 7, y(at) + 4, at.toFixed(1), 'end'),
      text(x(at), base + 15, at.toFixed(1), 'middle'),
    ]),
    `<polyline fill="none" points="${points.map((p) => `${round(x(p.meanChance))},${round(y(p.observed))}`).join(' ')}"/>`,
    ...points.flatMap((point) => bar(point, x, y)),
    ...points.map(
      (p) =>
        `<rect x="${round(x(p.meanChance) - 4)}" y="${round(base - tall(p.count))}" width="8" height="${round(tall(p.count))}" stroke="none"/>`,
    ),
    line(LEFT, base, LEFT + SIDE, base),
    text(LEFT - 7, base - COUNTS + 8, count(most), 'end'),
    text(LEFT - 7, base, '0', 'end'),
    text(LEFT + SIDE / 2, base + 32, 'chance given', 'middle'),
    text(LEFT + SIDE / 2, base + 45, 'lower panel: number of cases, log scale', 'middle', 10),
    `<text transform="translate(14 ${TOP + SIDE / 2}) rotate(-90)" text-anchor="middle" stroke="none">share in which it happened</text>`,
    '</svg>',
  ];
  return `${lines.join('\n')}\n`;
}

function bar(
  { meanChance, observed, consistent }: ReliabilityPoint,
  x: (chance: number) => number,
  y: (share: number) => number,
): string[] {
  const at = x(meanChance);
  const dot = `<circle cx="${round(at)}" cy="${round(y(observed))}" r="3"/>`;
  if (consistent === null) return [dot];
  const { low, high } = consistent;
  return [
    line(at, y(low), at, y(high)),
    line(at - 5, y(low), at + 5, y(low)),
    line(at - 5, y(high), at + 5, y(high)),
    dot,
  ];
}

const round = (px: number): number => Math.round(px * 10) / 10;
const line = (x1: number, y1: number, x2: number, y2: number, more = ''): string =>
  `<line x1="${round(x1)}" y1="${round(y1)}" x2="${round(x2)}" y2="${round(y2)}"${more}/>`;
const text = (x: number, y: number, words: string, anchor: string, size = 11): string =>
  `<text x="${round(x)}" y="${round(y)}" text-anchor="${anchor}" font-size="${size}" stroke="none">${words}</text>`;
/** 28,932 */
const count = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/g, ',');
