import { MS_PER_HOUR } from '../units/index.ts';
import { type AnswerShape, show } from './answer-shape.ts';
import type { ReadIssue } from './types.ts';
import { labelAsUtcMs, utcLabel } from './utc-label.ts';

export interface TimeColumn {
  readonly startMs: number;
  readonly hours: number;
  readonly notes: readonly string[];
}

/** Longest series read; the provider's longest hourly answer is 92 past and 36 coming days. */
const MAX_HOURS = 24 * 366;
const EARLIEST_S = Date.UTC(1940, 0, 1) / 1000;
const LATEST_S = Date.UTC(2100, 0, 1) / 1000;

/**
 * Reads `hourly.time`. Labels are local and carry no offset: the whole response uses the one offset
 * that held when it was asked for, across clock changes too, so that offset alone is subtracted and
 * the zone name is never consulted.
 */
export function readTimeColumn(answer: AnswerShape): TimeColumn | { issues: ReadIssue[] } {
  const fail = (path: string, message: string) => ({ issues: [{ path, message }] });
  const column = answer.hourly['time'];
  const unit = answer.hourly_units['time'];
  if (!Array.isArray(column)) {
    return fail('hourly.time', `hourly.time is ${show(column)}; it must be a list of times.`);
  }
  if (unit !== 'iso8601' && unit !== 'unixtime') {
    const message = `hourly_units.time is ${show(unit)}; accepted: iso8601, unixtime.`;
    return fail('hourly_units.time', message);
  }
  if (column.length < 2 || column.length > MAX_HOURS) {
    const message = `hourly.time has ${column.length} entries; Layfair reads 2 to ${MAX_HOURS}.`;
    return fail('hourly.time', message);
  }

  const offset = offsetSeconds(answer, unit);
  if (offset === null) {
    return fail(
      'utc_offset_seconds',
      `utc_offset_seconds is missing, so local times (timezone ${show(answer.timezone)}) cannot be placed; it must be a number of seconds.`,
    );
  }
  let startMs = 0;
  let previousMs = 0;
  for (let i = 0; i < column.length; i++) {
    const atMs = readStamp(column[i], unit, offset);
    if (atMs === null) {
      const wanted = unit === 'iso8601' ? 'YYYY-MM-DDTHH:MM' : 'whole unix seconds, 1940 to 2100';
      return fail(
        `hourly.time.${i}`,
        `hourly.time[${i}] is ${show(column[i])}; accepted: ${wanted}.`,
      );
    }
    if (i === 0) startMs = atMs;
    else if (atMs - previousMs !== MS_PER_HOUR)
      return fail(`hourly.time.${i}`, stepSentence(previousMs, atMs));
    previousMs = atMs;
  }
  const notes =
    startMs % MS_PER_HOUR === 0
      ? []
      : [
          'this zone is not whole hours from UTC: the service reads values up to 45 minutes away from their labels',
        ];
  return { startMs, hours: column.length, notes };
}

function offsetSeconds(answer: AnswerShape, unit: 'iso8601' | 'unixtime'): number | null {
  if (unit === 'unixtime') return 0;
  if (answer.utc_offset_seconds !== undefined) return answer.utc_offset_seconds;
  return /^(GMT|UTC|Etc\/UTC)$/.test(answer.timezone ?? '') ? 0 : null;
}

function readStamp(value: unknown, unit: 'iso8601' | 'unixtime', offset: number): number | null {
  if (unit === 'unixtime') {
    const whole = typeof value === 'number' && Number.isInteger(value);
    return whole && value >= EARLIEST_S && value < LATEST_S ? value * 1000 : null;
  }
  const label = typeof value === 'string' ? labelAsUtcMs(value) : null;
  return label === null ? null : label - offset * 1000;
}

function stepSentence(fromMs: number, toMs: number): string {
  const way = toMs > fromMs ? 'to' : 'back to';
  return `hourly.time goes from ${utcLabel(fromMs)}Z ${way} ${utcLabel(toMs)}Z; it must rise by one hour each time, without a gap.`;
}
