import { isoUtc } from '../time/index.ts';

/** Writing content lines of iCalendar (RFC 5545, section 3): knows nothing of bookings. */

const MOST_OCTETS = 75;

/**
 * A line folded so that none is longer than 75 octets, and no character is cut (RFC 5545, 3.1).
 * Ends with the line break.
 */
export function foldedLine(line: string): string {
  let folded = '';
  let octets = 0;
  for (const character of line) {
    const size = utf8Octets(character);
    if (octets + size > MOST_OCTETS) {
      folded += '\r\n ';
      octets = 1;
    }
    folded += character;
    octets += size;
  }
  return `${folded}\r\n`;
}

function utf8Octets(character: string): number {
  const code = character.codePointAt(0)!;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
}

/** A value of type TEXT (RFC 5545, 3.3.11). */
export function textValue(text: string): string {
  return text
    .replace(/[\\;,]/g, (character) => `\\${character}`)
    .replaceAll('\r\n', '\n')
    .replaceAll('\n', '\\n');
}

/** A DATE-TIME in UTC (RFC 5545, 3.3.5, form 2); parts of a second are left away. */
export function utcValue(ms: number): string {
  return isoUtc(Math.floor(ms / 1000) * 1000).replace(/[-:]/g, '');
}

/** A DATE (RFC 5545, 3.3.4) from 'YYYY-MM-DD'. */
export const dateValue = (date: string): string => date.replaceAll('-', '');
