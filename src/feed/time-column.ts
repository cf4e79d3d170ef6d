import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import { type AnswerShape, show } from './answer-shape.ts';
import type { ReadIssue } from './types.ts';
import { labelAsUtcMs, utcLabel } from './utc-label.ts';

export interface TimeColumn {
  readonly startMs: number;
  readonly hours: number;
  readonly notes: readonly string[];
}

/** A block of an answer: its columns and their units, beside the answer's own clock. */
export interface Block extends Pick<AnswerShape, 'utc_offset_seconds' | 'timezone'> {
  readonly name: 'hourly' | 'minutely_15';
  readonly columns: Readonly<Record<string, unknown>>;
  readonly units: Readonly<Record<string, unknown>>;
}

const STEPS = {
  hourly: { ms: MS_PER_HOUR, words: 'one hour' },
  minutely_15: { ms: 15 * MS_PER_MINUTE, words: '15 minutes' },
} as const;

/** Longest series read; the provider's longest hourly answer is 92 past and 36 coming days. */
const MAX_STAMPS = 24 * 366;
const EARLIEST_S = Date.UTC(1940, 0, 1) / 1000;
const LATEST_S = Date.UTC(2100, 0, 1) / 1000;

/** Reads `hourly.time`, see `readStamps`. */
export function readTimeColumn(answer: AnswerShape): TimeColumn | { issues: ReadIssue[] } {
  const { hourly, hourly_units, utc_offset_seconds, timezone } = answer;
  const clock = { utc_offset_seconds, timezone };
  const read = readStamps({ name: 'hourly', columns: hourly, units: hourly_units, ...clock });
  if ('issues' in read) return read;
  const notes =
    read.startMs % MS_PER_HOUR === 0
      ? []
      : [
          'this zone is not whole hours from UTC: the service reads values up to 45 minutes away from their labels',
        ];
  return { startMs: read.startMs, hours: read.count, notes };
}

/**
 * Reads a block's times. Labels are local and carry no offset: the whole response uses the one offset
 * that held when it was asked for, across clock changes too, so that offset alone is subtracted and
 * the zone name is never consulted.
 */
export function readStamps(
  block: Block,
): { readonly startMs: number; readonly count: number } | { issues: ReadIssue[] } {
  const fail = (path: string, message: string) => ({ issues: [{ path, message }] });
  const { name } = block;
  const column = block.columns['time'];
  const unit = block.units['time'];
  if (!Array.isArray(column)) {
    return fail(`${name}.time`, `${name}.time is ${show(column)}; it must be a list of times.`);
  }
  if (unit !== 'iso8601' && unit !== 'unixtime') {
    const message = `${name}_units.time is ${show(unit)}; accepted: iso8601, unixtime.`;
    return fail(`${name}_units.time`, message);
  }
  if (column.length < 2 || column.length > MAX_STAMPS) {
    const message = `${name}.time has ${column.length} entries; Layfair reads 2 to ${MAX_STAMPS}.`;
    return fail(`${name}.time`, message);
  }

  const offset = offsetSeconds(block, unit);
  if (offset === null) {
    return fail(
      'utc_offset_seconds',
      `utc_offset_seconds is missing, so local times (timezone ${show(block.timezone)}) cannot be placed; it must be a number of seconds.`,
    );
  }
  let startMs = 0;
  let previousMs = 0;
  for (let i = 0; i < column.length; i++) {
    const atMs = readStamp(column[i], unit, offset);
    if (atMs === null) {
      const wanted = unit === 'iso8601' ? 'YYYY-MM-DDTHH:MM' : 'whole unix seconds, 1940 to 2100';
      return fail(
        `${name}.time.${i}`,
        `${name}.time[${i}] is ${show(column[i])}; accepted: ${wanted}.`,
      );
    }
    if (i === 0) startMs = atMs;
    else if (atMs - previousMs !== STEPS[name].ms)
      return fail(`${name}.time.${i}`, stepSentence(name, previousMs, atMs));
    previousMs = atMs;
  }
  return { startMs, count: column.length };
}

function offsetSeconds(block: Block, unit: 'iso8601' | 'unixtime'): number | null {
  if (unit === 'unixtime') return 0;
  if (block.utc_offset_seconds !== undefined) return block.utc_offset_seconds;
  return /^(GMT|UTC|Etc\/UTC)$/.test(block.timezone ?? '') ? 0 : null;
}

function readStamp(value: unknown, unit: 'iso8601' | 'unixtime', offset: number): number | null {
  if (unit === 'unixtime') {
    const whole = typeof value === 'number' && Number.isInteger(value);
    return whole && value >= EARLIEST_S && value < LATEST_S ? value * 1000 : null;
  }
  const label = typeof value === 'string' ? labelAsUtcMs(value) : null;
  return label === null ? null : label - offset * 1000;
}

function stepSentence(name: Block['name'], fromMs: number, toMs: number): string {
  const way = toMs > fromMs ? 'to' : 'back to';
  return `${name}.time goes from ${utcLabel(fromMs)}Z ${way} ${utcLabel(toMs)}Z; it must rise by ${STEPS[name].words} each time, without a gap.`;
}
