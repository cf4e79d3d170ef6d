import { createHash } from 'node:crypto';

/**
 * JSON with one spelling per value: keys sorted, nothing that JSON would silently turn into
 * something else. Two equal requests therefore have equal text, and a stored body is what was given.
 * @throws TypeError naming the place of a value JSON cannot hold (NaN, Infinity, undefined in a list, a function ...)
 */
export function canonicalJson(value: unknown): string {
  return write(value, '$');
}

function write(value: unknown, at: string): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') {
    return JSON.stringify(value);
  }
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new TypeError(`${at} (${value}) must be a finite number`);
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) {
    return `[${value.map((item, i) => write(item, `${at}[${i}]`)).join(',')}]`;
  }
  if (typeof value === 'object' && isPlain(value)) {
    const fields = Object.entries(value)
      .filter(([, field]) => field !== undefined)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, field]) => `${JSON.stringify(key)}:${write(field, `${at}.${key}`)}`);
    return `{${fields.join(',')}}`;
  }
  throw new TypeError(`${at} (${typeof value}) cannot be kept as JSON`);
}

function isPlain(value: object): boolean {
  const proto: unknown = Object.getPrototypeOf(value);
  return proto === Object.prototype || proto === null;
}

export function sha256Hex(bytes: string | Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/**
 * A UUID that is always the same for the same name: version 8 (RFC 9562, section 5.8), its free bits
 * filled from SHA-256.
 */
export function derivedUuid(name: string): string {
  const bytes = createHash('sha256').update(name).digest().subarray(0, 16);
  bytes.writeUInt8((bytes.readUInt8(6) & 0x0f) | 0x80, 6);
  bytes.writeUInt8((bytes.readUInt8(8) & 0x3f) | 0x80, 8);
  const hex = bytes.toString('hex');
  return [
    hex.slice(0, 8),
    hex.slice(8, 12),
    hex.slice(12, 16),
    hex.slice(16, 20),
    hex.slice(20),
  ].join('-');
}
