/** Forecasts with what was measured afterwards, from the sets that may lie beside the project. */
import { existsSync, readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import type { EnsembleCase } from '../../src/planner/verification/index.ts';

export interface DatedCase extends EnsembleCase {
  /** Cases of one date stand under the same weather. */
  readonly day: string;
  readonly place: string;
}

const FOLDER = new URL('../../../shared/weather/', import.meta.url);

type Fields = Readonly<Record<string, string>>;

/** Rows of a table, or null when it is not here. */
function readTable(name: string): Fields[] | null {
  const file = new URL(name, FOLDER);
  if (!existsSync(file)) return null;
  const bytes = readFileSync(file);
  const text = (name.endsWith('.gz') ? gunzipSync(bytes) : bytes).toString('utf8');
  const [head, ...lines] = text.trim().split(/\r?\n/);
  const names = head!.split(',');
  return lines.map((line) =>
    Object.fromEntries(line.split(',').map((cell, i) => [names[i]!, cell])),
  );
}

/** null where the cell is empty. */
function numberIn(row: Fields, name: string): number | null {
  const cell = row[name] ?? '';
  if (cell === '') return null;
  const value = Number(cell);
  if (!Number.isFinite(value)) throw new Error(`${name}: '${cell}' is no number`);
  return value;
}

export interface Columns {
  readonly day: string;
  readonly place: string | null;
  readonly observed: string;
  readonly members: RegExp;
}

/** Complete rows of an ensemble set; null when the set is not here. */
export function readEnsembles(file: string, columns: Columns): DatedCase[] | null {
  const rows = readTable(file);
  if (rows === null) return null;
  const names = Object.keys(rows[0]!).filter((name) => columns.members.test(name));
  return rows.flatMap((row) => {
    const members = names.map((name) => numberIn(row, name));
    const observed = numberIn(row, columns.observed);
    if (observed === null || members.includes(null)) return [];
    const place = columns.place === null ? '' : row[columns.place]!.trim();
    return [{ day: row[columns.day]!.slice(0, 10), place, members: members as number[], observed }];
  });
}

const DRESSED_MEMBERS = 51;
const DRESSING_FOLDS = 10;

/**
 * An ensemble made of one forecast and the errors such forecasts had on other days, at their quantiles:
 * ten runs of neighbouring dates, each dressed with the errors of the other nine, all places together. Quantiles i / 52, so that every rank is as likely.
 */
export function dressSingles(file: string, forecast: string, observed: string): DatedCase[] | null {
  const rows = readTable(file)?.flatMap((row) => {
    const single = numberIn(row, forecast);
    const measured = numberIn(row, observed);
    if (single === null || measured === null) return [];
    return [{ day: row['date']!, place: `${row['city']}, ${row['state']}`, single, measured }];
  });
  if (rows === undefined) return null;
  const days = [...new Set(rows.map(({ day }) => day))].sort();
  const foldOf = new Map(
    days.map((day, i) => [day, Math.floor((i * DRESSING_FOLDS) / days.length)]),
  );
  const errors = Array.from({ length: DRESSING_FOLDS }, (_, fold) => {
    const sorted = rows
      .filter(({ day }) => foldOf.get(day) !== fold)
      .map(({ single, measured }) => measured - single)
      .sort((a, b) => a - b);
    return Array.from(
      { length: DRESSED_MEMBERS },
      (__, i) => sorted[Math.floor(((i + 1) * sorted.length) / (DRESSED_MEMBERS + 1))]!,
    );
  });
  return rows.map(({ day, place, single, measured }) => ({
    day,
    place,
    members: errors[foldOf.get(day)!]!.map((error) => single + error),
    observed: measured,
  }));
}
