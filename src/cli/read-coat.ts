import type { CoatDetails } from '../answers/index.ts';
import { CLOCK_FACES, type ClockFace } from '../contract/index.ts';
import { localDayOf, wallTimeMs } from '../time/index.ts';
import type { InputIssue } from './bad-input.ts';
import { quote, readInstant } from './read-input.ts';

export interface CoatOptions {
  readonly coated: string;
  readonly until?: string;
  readonly closed?: string;
  readonly faces?: string;
}

export type CoatRead =
  | { readonly ok: true; readonly coatedMs: number; readonly more: CoatDetails }
  | { readonly ok: false; readonly issues: readonly InputIssue[] };

/** `--coated`, `--until`, `--closed` and `--faces`: what was coated when. */
export function readCoat(options: CoatOptions, zone: string): CoatRead {
  const issues: InputIssue[] = [];
  const keep = (read: number | InputIssue): number | undefined => {
    if (typeof read === 'number') return read;
    issues.push(read);
    return undefined;
  };
  const coatedMs = keep(readInstant('--coated', options.coated, zone));
  const later = (option: '--until' | '--closed', text: string | undefined): number | undefined =>
    text === undefined ? undefined : keep(readLater(option, text, coatedMs, zone));
  const more: CoatDetails = {
    coatedUntilMs: later('--until', options.until),
    closedMs: later('--closed', options.closed),
    faces: readFaces(options.faces, issues),
  };
  if (coatedMs === undefined || issues.length > 0) return { ok: false, issues };
  return { ok: true, coatedMs, more };
}

/** A time of day alone is meant on the day it was coated. */
function readLater(
  option: string,
  text: string,
  coatedMs: number | undefined,
  zone: string,
): number | InputIssue {
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(text)) return readInstant(option, text, zone);
  return coatedMs === undefined ? 0 : wallTimeMs(localDayOf(coatedMs, zone), text, zone);
}

function readFaces(text: string | undefined, issues: InputIssue[]): ClockFace[] | undefined {
  if (text === undefined) return undefined;
  const names = text.split(',').map((name) => name.trim());
  const wrong = names.filter((name) => !(CLOCK_FACES as readonly string[]).includes(name));
  if (wrong.length > 0) {
    const message = `--faces names ${wrong.map(quote).join(', ')}; it must be one or more of ${CLOCK_FACES.join(', ')}, with commas between.`;
    issues.push({ path: '--faces', message });
    return undefined;
  }
  return names as ClockFace[];
}
