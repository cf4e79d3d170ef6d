/** A clock pack that is cut, changed, old or foreign gets a sentence, and never a clock. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodePack, encodePack } from '../../src/products/index.ts';
import { checkOf } from '../../src/products/pack/text.ts';
import { packOf } from '../fixtures/planner/clock-pack.ts';
import { jobOf } from '../fixtures/planner/job.ts';
import { weatherOf } from '../fixtures/planner/weather.ts';

const pack = packOf(jobOf('boat-store'), weatherOf(), '2026-05-13');
const encoded = encodePack(pack);
const text = JSON.stringify(encoded);
const SENTENCE = /^[A-Z].*\.$/s;

const messageOf = (value: unknown): string => {
  const read = decodePack(value);
  return read.ok ? 'read' : read.message;
};

type Json = Record<string, unknown>;
/** The body changed and its check made to fit: only the reader of its fields can notice. */
function changed(change: (body: Json) => void): unknown {
  const body = JSON.parse(JSON.stringify(encoded.body)) as Json;
  change(body);
  return { ...encoded, check: checkOf(JSON.stringify(body)), body };
}

describe('a damaged clock pack', () => {
  it('is refused with a letter changed anywhere', () => {
    fc.assert(
      fc.property(fc.nat(text.length - 1), fc.constantFrom('0', 'x', '"', '}'), (at, letter) => {
        if (text[at] === letter) return;
        const read = decodePack(text.slice(0, at) + letter + text.slice(at + 1));
        expect(read.ok).toBe(false);
        if (!read.ok) expect(read.message).toMatch(SENTENCE);
      }),
      { numRuns: 500 },
    );
  });

  it('is refused cut short anywhere', () => {
    fc.assert(
      fc.property(fc.nat(text.length - 1), (at) => {
        expect(messageOf(text.slice(0, at))).toMatch(/Fetch it again|is no clock pack/);
      }),
    );
  });

  it('is refused when it is something else altogether', () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        expect(messageOf(value)).toMatch(SENTENCE);
      }),
      { numRuns: 500 },
    );
    expect(messageOf(null)).toBe('This is no clock pack.');
    expect(messageOf('[]')).toBe('This is no clock pack.');
  });

  it('of another format is told from a damaged one', () => {
    expect(messageOf({ ...encoded, format: 'layfair-clock-pack-0' })).toBe(
      "The format is 'layfair-clock-pack-0'; this program reads 'layfair-clock-pack-1'. Fetch it again.",
    );
  });
});

describe('a clock pack made by hand', () => {
  it('reads where nothing was changed', () => {
    expect(messageOf(changed(() => undefined))).toBe('read');
  });

  it.each<readonly [string, (body: Json) => void, RegExp]>([
    ['too many steps', (b) => (b['steps'] = 1e9), /steps is 1000000000; it must be a whole number/],
    ['a step less', (b) => (b['steps'] = (b['steps'] as number) - 1), /packed numbers/],
    ['more known than there is', (b) => (b['knownSteps'] = 577), /knownSteps is 577/],
    ['a start that is no time', (b) => (b['startMs'] = 'soon'), /startMs is "soon"/],
    ['no products', (b) => delete b['products'], /products is missing; it must be a list/],
    [
      'a product twice',
      (b) => (b['products'] as Json[]).push((b['products'] as Json[])[0]!),
      /twice/,
    ],
    [
      'times that fall',
      (b) => ((b['products'] as Json[])[0]!['times'] = { touchDry: [3, 2, 1] }),
      /3 whole numbers, rising/,
    ],
    [
      'a column of nonsense',
      (b) => ((b['columns'] as Json[])[0]!['mid'] = '\\\\\\'),
      /columns\[0\]\.mid is .* packed numbers/,
    ],
    [
      'a film that dries backwards',
      (b) => {
        const column = (b['columns'] as Json[])[0]!;
        column['slower'] = `r~~~$${'#'.repeat((b['steps'] as number) - 1)}`;
      },
      /dries backwards|packed numbers/,
    ],
    [
      'a law that is not there',
      (b) => ((b['clocks'] as Json[])[0]!['laws'] = { touchDry: 999 }),
      /clocks\[0\]\.laws\.touchDry is 999/,
    ],
    [
      'a product that is not there',
      (b) => ((b['clocks'] as Json[])[0]!['productId'] = 'glue'),
      /clocks\[0\]\.productId is "glue"/,
    ],
  ])('is refused with %s', (_what, change, words) => {
    expect(messageOf(changed(change))).toMatch(words);
    expect(messageOf(changed(change))).toMatch(SENTENCE);
  });

  it('is refused or read whole with any field of any object replaced', () => {
    const paths: (readonly string[])[] = [];
    const walk = (value: unknown, path: readonly string[]): void => {
      if (path.length > 0) paths.push(path);
      if (typeof value !== 'object' || value === null) return;
      const inside = Object.entries(value).slice(0, Array.isArray(value) ? 3 : undefined);
      for (const [key, each] of inside) walk(each, [...path, key]);
    };
    walk(encoded.body, []);
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.jsonValue({ maxDepth: 2 }), (path, value) => {
        const read = decodePack(
          changed((body) => {
            const last = path.at(-1)!;
            const holder = path.slice(0, -1).reduce<unknown>((at, key) => (at as Json)[key], body);
            (holder as Json)[last] = value;
          }),
        );
        if (!read.ok) expect(read.message).toMatch(SENTENCE);
        else for (const { mid } of read.pack.columns) expect(mid).toHaveLength(read.pack.steps);
      }),
      { numRuns: 600 },
    );
  });
});
