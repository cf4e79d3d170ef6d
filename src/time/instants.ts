import { DateTime, IANAZone, Settings } from 'luxon';

Settings.throwOnInvalid = true;

declare module 'luxon' {
  interface TSSettings {
    throwOnInvalid: true;
  }
}

export type InstantResult =
  | { readonly ok: true; readonly ms: number }
  | { readonly ok: false; readonly message: string };

const OFFSET = /(?:Z|[+-](\d{2})(?::?(\d{2}))?)$/i;
/** No place on earth is further than this from Greenwich, and luxon takes any two digits. */
const LARGEST_OFFSET_H = 14;

/**
 * Reads an ISO 8601 date-time. Without an offset it is a local time in `zone`; a local time that
 * happens twice (clocks going back) means the first, one that never happens is refused.
 * @param zone  IANA zone for times without an offset, or null to refuse those
 */
export function parseInstant(text: string, zone: string | null): InstantResult {
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}/.test(text)) {
    return {
      ok: false,
      message: `'${text}' is not a date and time such as 2026-05-14T07:30 or 2026-05-14T07:30Z`,
    };
  }
  try {
    const [offset, hours = '0', minutes = '0'] = OFFSET.exec(text) ?? [];
    if (offset !== undefined) {
      if (Number(hours) > LARGEST_OFFSET_H || Number(minutes) > 59) return notReal(text);
      return { ok: true, ms: DateTime.fromISO(text).toMillis() };
    }
    if (zone === null) {
      return {
        ok: false,
        message: `'${text}' has no zone; write it with Z or an offset, e.g. ${text}Z or ${text}+01:00`,
      };
    }
    return localInstant(text, zone);
  } catch {
    return notReal(text);
  }
}

const notReal = (text: string): InstantResult => ({
  ok: false,
  message: `'${text}' is not a date and time that exists`,
});

function localInstant(text: string, zone: string): InstantResult {
  const asWritten = DateTime.fromISO(text, { zone: 'utc' });
  const found = DateTime.fromISO(text, { zone });
  // Luxon moves a time inside the spring gap on by an hour without a word.
  if (found.hour !== asWritten.hour || found.minute !== asWritten.minute) {
    return {
      ok: false,
      message: `'${text}' does not exist in ${zone}: the clocks go forward then`,
    };
  }
  return { ok: true, ms: firstOf(found) };
}

/** Of a local time that happens twice, luxon picks by today's date; always take the first. */
function firstOf(dateTime: DateTime): number {
  return Math.min(...dateTime.getPossibleOffsets().map((candidate) => candidate.toMillis()));
}

export function isTimeZone(zone: string): boolean {
  return IANAZone.isValidZone(zone);
}

/** UTC text of an instant, to the second: '2026-05-12T04:40:00Z'. */
export function isoUtc(ms: number): string {
  return DateTime.fromMillis(ms, { zone: 'utc' }).toISO({ suppressMilliseconds: true });
}

export { firstOf as firstPossible };
