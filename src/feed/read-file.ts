import { gunzipSync } from 'node:zlib';
import { isRecord } from './answer-shape.ts';
import { looksLikeHtml, parseServiceJson } from './parse-json.ts';
import { distanceKm } from './place.ts';
import { readWeatherResponse } from './read-response.ts';
import type { Place, WeatherRead } from './types.ts';

export interface ReadFileOptions {
  /** Where the site is: picks the nearest of several locations in one file. */
  readonly near?: Place;
  /** When the file was fetched, if that is known. */
  readonly fetchedMs?: number | null;
}

/** A forecast file is a few MB; more, packed or unpacked, is something else. */
const MAX_BYTES = 64 * 1024 * 1024;

const refuse = (message: string): WeatherRead => ({ ok: false, issues: [{ path: '', message }] });

/** Reads a saved response: JSON or gzipped JSON, one location or a list of them. */
export function readWeatherFile(bytes: Uint8Array, opts: ReadFileOptions = {}): WeatherRead {
  if (bytes.length === 0) return refuse('The weather file is empty.');
  if (bytes.length > MAX_BYTES) return refuse(tooLarge(bytes.length));
  const plain = unpack(bytes);
  if (typeof plain === 'string') return refuse(plain);
  const text = decode(plain);
  if (text === null)
    return refuse('The weather file is not text; accepted: JSON in UTF-8, plain or gzipped.');
  if (text.trim() === '') return refuse('The weather file is empty.');
  if (looksLikeHtml(text)) {
    return refuse(
      'The weather file is a web page, not a forecast: save the answer of the forecast address itself.',
    );
  }
  if (/^\s*(latitude|time)\s*,/.test(text)) {
    return refuse('The weather file is a table (CSV); save the forecast as JSON instead.');
  }
  const parsed = parseServiceJson(text);
  if (!parsed.ok) return refuse(`The weather file is damaged: ${parsed.why}.`);

  const location = pickLocation(parsed.value, opts.near);
  if (typeof location === 'string') return refuse(location);
  return readWeatherResponse(location.value, { fetchedMs: opts.fetchedMs ?? null, kind: 'file' });
}

function tooLarge(length: number): string {
  const mb = Math.round(length / 1024 / 1024);
  return `The weather file has ${mb} MB; Layfair reads up to ${MAX_BYTES / 1024 / 1024} MB.`;
}

/** The bytes, unpacked where they start with the gzip mark (RFC 1952), or the sentence why not. */
function unpack(bytes: Uint8Array): Uint8Array | string {
  if (bytes[0] !== 0x1f || bytes[1] !== 0x8b) return bytes;
  try {
    return gunzipSync(bytes, { maxOutputLength: MAX_BYTES });
  } catch (error) {
    if (error instanceof RangeError) return tooLarge(MAX_BYTES + 1024 * 1024);
    const why = error instanceof Error ? error.message : 'unknown reason';
    return `The weather file is damaged: it is gzipped but cannot be unpacked (${why}).`;
  }
}

function decode(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

function pickLocation(value: unknown, near: Place | undefined): { value: unknown } | string {
  if (!Array.isArray(value)) return { value };
  if (value.length === 0) return 'The weather file holds no location; Layfair needs one.';
  if (value.length === 1) return { value: value[0] };
  if (near === undefined) {
    return `The weather file holds ${value.length} locations; Layfair needs one, or a site to pick the nearest for.`;
  }
  const placed = value.flatMap((item: unknown) => {
    if (!isRecord(item)) return [];
    const { latitude, longitude } = item;
    if (typeof latitude !== 'number' || typeof longitude !== 'number') return [];
    return [{ item, km: distanceKm({ latitudeDeg: latitude, longitudeDeg: longitude }, near) }];
  });
  const nearest = placed.reduce<(typeof placed)[number] | null>(
    (best, p) => (best === null || p.km < best.km ? p : best),
    null,
  );
  return nearest === null
    ? `None of the ${value.length} locations in the weather file has a latitude and longitude.`
    : { value: nearest.item };
}
