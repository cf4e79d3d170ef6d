import { isoUtc, parseInstant } from '../time/index.ts';

/** 'YYYY-MM-DDTHH:MM' of an instant in UTC: the form of the provider's labels. */
export const utcLabel = (atMs: number): string => isoUtc(atMs).slice(0, 16);

/**
 * Reads the provider's label 'YYYY-MM-DDTHH:MM' as if it were UTC. Null for any other form, and for
 * dates and hours that do not exist (24:00 included, which ISO readers roll over).
 */
export function labelAsUtcMs(label: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/.test(label)) return null;
  const read = parseInstant(`${label}Z`, null);
  return read.ok && utcLabel(read.ms) === label ? read.ms : null;
}
