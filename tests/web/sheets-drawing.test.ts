import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawRoof, layOutOutlineSheets, type SheetPart } from '../../src/roof/sheets/index.ts';
import { LARGE_ROOF } from '../bench/large-roof.ts';
import { launchBrowser } from '../browser/browser.ts';

/** The drawing of a roof as a browser shows it on a phone's width. */

const edge = (kind: SheetPart['edges'][number]['kind'], upstandMm = 0) => ({ kind, upstandMm });
const flat = { fallDeg: 1.4, fallPlanDeg: 180, features: [] };
const GARAGE: SheetPart = {
  ...flat,
  points: [
    [0, 0],
    [6, 0],
    [6, 3.5],
    [0, 3.5],
  ],
  edges: [edge('gutter'), edge('verge'), edge('abutment', 150), edge('verge')],
};
const EXTENSION: SheetPart = {
  ...flat,
  points: [
    [0, 0],
    [12, 0],
    [12, 5],
    [7, 5],
    [7, 11],
    [0, 11],
  ],
  edges: [
    edge('gutter'),
    edge('verge'),
    edge('kerb', 100),
    edge('parapet', 300),
    edge('abutment', 150),
    edge('boundary', 150),
  ],
  features: [
    { id: 'o', kind: 'outlet', at: [1, 0.6], sizeM: [0.1, 0.1], upstandMm: 0 },
    { id: 'r', kind: 'rooflight', at: [9, 2.6], sizeM: [1.2, 0.9], upstandMm: 150 },
  ],
};
const RECESSED: SheetPart = {
  ...flat,
  points: [
    [0, 0],
    [20, 0],
    [20, 3],
    [19.2, 3],
    [19.2, 5],
    [20, 5],
    [20, 12],
    [12, 12],
    [12, 11.4],
    [10, 11.4],
    [10, 12],
    [0, 12],
  ],
  edges: Array.from({ length: 12 }, (_, i) => (i === 0 ? edge('gutter') : edge('parapet', 150))),
};
const SLANTED: SheetPart = {
  ...flat,
  fallPlanDeg: 200,
  points: [
    [0, 0],
    [9, 1.2],
    [14, 6],
    [10.5, 12],
    [9.9, 12.6],
    [3, 10],
  ],
  edges: Array.from({ length: 6 }, (_, i) => (i === 0 ? edge('gutter') : edge('abutment', 150))),
};
const ROOFS = { GARAGE, EXTENSION, RECESSED, SLANTED, LARGE_ROOF };

function draw(part: SheetPart, title: string): string {
  const issues = [
    { at: part.points[1]!, message: 'This edge has an upstand of 80 mm; 150 mm or more is usual.' },
    { at: null, message: 'No access point is given.' },
  ];
  const layout = layOutOutlineSheets(part);
  return drawRoof({ title, parts: [{ part, layout }], northDeg: 30, issues });
}

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
}, 60_000);
afterAll(() => browser.close());

describe('the drawing of a roof at 390 px', () => {
  it.each(Object.entries(ROOFS))(
    '%s: no text lies over another, all are on it and legible',
    async (name, part) => {
      const context = await browser.newContext({ viewport: { width: 390, height: 800 } });
      const page = await context.newPage();
      await page.setContent(`<body style="margin:0">${draw(part, `Roof ${name}`)}</body>`);
      const texts = await page.locator('svg text').evaluateAll((all) =>
        all.map((text) => {
          const { left, right, top, bottom } = text.getBoundingClientRect();
          const size = Number.parseFloat(getComputedStyle(text).fontSize);
          return { said: text.textContent, left, right, top, bottom, size };
        }),
      );
      await context.close();
      expect(texts.length).toBeGreaterThan(part.points.length);
      const over: string[] = [];
      texts.forEach((a, i) => {
        expect(a.left, `${a.said}`).toBeGreaterThanOrEqual(0);
        expect(a.right, `${a.said}`).toBeLessThanOrEqual(390);
        expect(a.size).toBeGreaterThanOrEqual(11);
        for (const b of texts.slice(i + 1)) {
          const w = Math.min(a.right, b.right) - Math.max(a.left, b.left);
          // A line's box is higher than its letters.
          const h = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) - 3;
          if (w > 0.5 && h > 0) over.push(`${a.said} over ${b.said}`);
        }
      });
      expect(over).toEqual([]);
    },
  );
});

describe('the text of a drawing', () => {
  it('is escaped wherever it comes from, and the drawing is well-formed XML', async () => {
    const nasty = `</title><script>alert("1")</script> & 'x' \u0000\uD800`;
    const layout = layOutOutlineSheets(EXTENSION);
    const svg = drawRoof({
      title: nasty,
      parts: [{ part: EXTENSION, layout }],
      northDeg: 0,
      sections: [{ label: nasty, points: EXTENSION.points }],
      issues: [{ at: [1, 1], message: nasty }],
    });
    expect(svg).not.toContain('<script');
    const page = await browser.newPage();
    const problem = await page.evaluate((text) => {
      const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
      return parsed.querySelector('parsererror')?.textContent ?? null;
    }, svg);
    await page.close();
    expect(problem).toBeNull();
  });

  it('names every edge with length and kind, every sheet and every issue, for the eye and in words', () => {
    const svg = draw(EXTENSION, 'Extension');
    for (const label of ['12.00 G', '5.00 V', '5.00 K', '6.00 P', '7.00 A', '11.00 B']) {
      expect(svg).toContain(`>${label}</text>`);
    }
    expect(svg).toMatch(/<title id="roof-title">Extension<\/title>/);
    expect(svg).toMatch(
      /<desc[^>]*>The roof has 6 edges: gutter 12.00 m, .*sheet 1 .*Note 2: No access/,
    );
    for (const { number } of layOutOutlineSheets(EXTENSION).sheets) {
      expect(svg).toContain(`>${number}</text>`);
    }
    expect(svg).toContain('fall 1:41');
    expect(svg.replace(/#(000|fff)\b/g, '')).not.toMatch(/(fill|stroke)[:=]"?(#|rgb)/);
  });

  it('refuses an id that could break out of its place', () => {
    const part = { part: GARAGE, layout: null };
    expect(() => drawRoof({ title: 'x', parts: [part], northDeg: 0, id: 'a" onload="b' })).toThrow(
      /letters, digits and hyphens/,
    );
    expect(() => drawRoof({ title: 'x', parts: [], northDeg: 0 })).toThrow(/at least one part/);
  });
});
