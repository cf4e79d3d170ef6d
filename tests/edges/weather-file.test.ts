import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlace, distanceKm, readWeatherFile } from '../../src/feed/index.ts';

/** Reading saved answers. Gzip by its mark, RFC 1952 section 2.3.1. */

const bytesOf = (name: string) =>
  readFileSync(new URL(`../fixtures/feed/${name}`, import.meta.url));
const bytes = (text: string) => new TextEncoder().encode(text);
function said(file: Uint8Array, opts = {}): string {
  const result = readWeatherFile(file, opts);
  if (result.ok) throw new Error('was read, but should have been refused');
  expect(result.issues).toHaveLength(1);
  return result.issues[0]?.message ?? '';
}
const BERLIN = { latitudeDeg: 52.52, longitudeDeg: 13.41 };

describe('readWeatherFile', () => {
  it('reads JSON, with or without a byte-order mark, and gzip', () => {
    const plain = bytesOf('plain.json');
    const marked = Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), plain]);
    for (const file of [plain, marked, gzipSync(plain)]) {
      const result = readWeatherFile(file, { fetchedMs: 5 });
      expect(result.ok && result.weather.members[0]?.windMps[0]).toBe(5);
      expect(result.ok && result.weather.source).toMatchObject({ kind: 'file', fetchedMs: 5 });
    }
  });
  it('reads a list of one place', () => {
    const list = bytes(`[${bytesOf('plain.json').toString()}]`);
    expect(readWeatherFile(list).ok).toBe(true);
  });
  it('picks the nearest of several places, past a bare nan, leaving the word in texts alone', () => {
    const result = readWeatherFile(bytesOf('two-places-nan.txt'), { near: BERLIN });
    expect(result.ok && result.weather.latitudeDeg).toBe(52.5);
  });
  it('picks the nearer of two whole places, wherever it stands in the list', () => {
    const here = bytesOf('plain.json').toString();
    const there = here.replace('"latitude": 52.5', '"latitude": 48.25');
    for (const list of [`[${here},${there}]`, `[${there},${here}]`]) {
      const result = readWeatherFile(bytes(list), { near: BERLIN });
      expect(result.ok && result.weather.latitudeDeg).toBe(52.5);
    }
  });
  it('asks which place where there are several', () => {
    expect(said(bytesOf('two-places-nan.txt'))).toBe(
      'The weather file holds 2 locations; Layfair needs one, or a site to pick the nearest for.',
    );
  });
  it.each([
    ['an empty file', bytes(''), 'is empty'],
    ['blanks', bytes(' \n'), 'is empty'],
    ['a web page', bytes('<!DOCTYPE html><html></html>'), 'is a web page'],
    ['a gateway page', bytes('<html>\r\n<head><title>502'), 'is a web page'],
    ['a table', bytes('latitude,longitude,elevation\n52.5,13.5,38\n'), 'is a table (CSV)'],
    ['an empty list', bytes('[]'), 'holds no location'],
    [
      'cut JSON',
      bytesOf('plain.json').subarray(0, 700),
      'is damaged: it breaks off before its end',
    ],
    [
      'a broken stream',
      bytes('{"latitude":52.5,"hourly":{"time":[1,Unexpected error while streaming data: gone'),
      'the service broke off while sending: "Unexpected error while streaming data: gone"',
    ],
    ['wrong JSON', bytes('{"a":1,}'), 'is damaged: '],
    [
      'cut gzip',
      gzipSync(bytesOf('plain.json')).subarray(0, 200),
      'gzipped but cannot be unpacked',
    ],
    ['two bytes of gzip', new Uint8Array([0x1f, 0x8b]), 'gzipped but cannot be unpacked'],
    ['a picture', new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0xff]), 'is not text'],
    [
      'an error answer',
      bytes('{"error":true,"reason":"Invalid timezone"}'),
      'error answer of the weather service, not a forecast: "Invalid timezone"',
    ],
    ['places without numbers', bytes('[{"latitude":nan},{}]'), 'has a latitude and longitude'],
  ])('refuses %s in one sentence', (_what, file, words) => {
    expect(said(file, { near: BERLIN })).toContain(words);
  });
  it('refuses gzip that unpacks to more than 64 MB', () => {
    expect(said(gzipSync(Buffer.alloc(65 * 1024 * 1024, 0x20)))).toContain(
      'Layfair reads up to 64 MB',
    );
  });
  it('answers any bytes with weather or whole sentences, and never throws', () => {
    const plain = bytesOf('plain.json').toString();
    const spliced = fc
      .tuple(
        fc.nat(plain.length),
        fc.nat(40),
        fc.oneof(fc.json(), fc.constantFrom('nan', '-nan', '1e999', '"', '[', '}')),
      )
      .map(([at, cut, put]) => bytes(plain.slice(0, at) + put + plain.slice(at + cut)));
    fc.assert(
      fc.property(fc.oneof(fc.uint8Array(), fc.json().map(bytes), spliced), (file) => {
        const result = readWeatherFile(file);
        if (result.ok) {
          const [member] = result.weather.members;
          expect(member?.airTempC.length).toBe(result.weather.hours);
        } else {
          for (const issue of result.issues) expect(issue.message).toMatch(/^\S.{9,}[.]$/s);
        }
      }),
      { numRuns: 3_000, seed: 20260512 },
    );
  });
});

describe('distance and place', () => {
  // Geocentric Datum of Australia Technical Manual, worked example of the inverse problem, Flinders
  // Peak to Buninyong: ellipsoidal distance 54 972.271 m (from memory). A sphere is within 0.6 % of it.
  it('measures Flinders Peak to Buninyong within 0.6 %', () => {
    const dms = (d: number, m: number, s: number) => d + m / 60 + s / 3600;
    const flinders = { latitudeDeg: -dms(37, 57, 3.7203), longitudeDeg: dms(144, 25, 29.5244) };
    const buninyong = { latitudeDeg: -dms(37, 39, 10.1561), longitudeDeg: dms(143, 55, 35.3839) };
    expect(Math.abs(distanceKm(flinders, buninyong) / 54.972271 - 1)).toBeLessThan(0.006);
  });
  it('measures across the date line', () => {
    const west = { latitudeDeg: 0, longitudeDeg: -179.9 };
    const east = { latitudeDeg: 0, longitudeDeg: 179.9 };
    // 0.2 degrees of the equator; one degree is 111.2 km on the mean sphere.
    expect(distanceKm(west, east)).toBeCloseTo(22.24, 1);
  });
  it('accepts a cell 28 km off and refuses one 67 km off with a sentence', () => {
    const read = readWeatherFile(bytesOf('plain.json'));
    if (!read.ok) throw new Error('fixture');
    expect(checkPlace(read.weather, { latitudeDeg: 52.75, longitudeDeg: 13.5 })).toBeNull();
    expect(checkPlace(read.weather, { latitudeDeg: 53.1, longitudeDeg: 13.5 })).toBe(
      'This forecast is for latitude 52.50, longitude 13.50, 67 km from the site at latitude 53.10, longitude 13.50; Layfair accepts up to 60 km.',
    );
  });
});
