/** One row of the accuracy table, and the table as markdown. */

export interface AccuracyRow {
  readonly what: string;
  readonly against: string;
  /** Values compared. */
  readonly n: number;
  /** Ours minus theirs, averaged. */
  readonly meanError: number;
  /** Ours minus theirs, the one of largest size. */
  readonly worstError: number;
  readonly unit: string;
}

/** Sums up the errors (ours minus theirs) of one comparison; refuses an empty or broken one. */
export function row(
  what: string,
  against: string,
  unit: string,
  errors: readonly number[],
): AccuracyRow {
  if (errors.length === 0 || errors.some((e) => !Number.isFinite(e))) {
    throw new Error(`${what} against ${against}: no rows, or one without a number`);
  }
  const meanError = errors.reduce((a, b) => a + b, 0) / errors.length;
  const worstError = errors.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
  return { what, against, n: errors.length, meanError, worstError, unit };
}

/** Ours against theirs [%]. */
export const percent = (ours: number, theirs: number): number => 100 * (ours / theirs - 1);

/** from, from + step, ... to, ends included. */
export const range = (from: number, to: number, step: number): number[] =>
  Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => from + i * step);

/** Three digits that matter, no exponent. */
function digits(value: number): string {
  const size = Math.abs(value);
  if (size < 5e-5) return '0.0000';
  const places = size >= 100 ? 0 : size >= 10 ? 1 : size >= 1 ? 2 : size >= 0.01 ? 3 : 4;
  return `${value > 0 ? '+' : ''}${value.toFixed(places)}`;
}

/** The rows as a markdown table. */
export function accuracyMarkdown(rows: readonly AccuracyRow[]): string {
  const lines = rows.map(
    (r) =>
      `| ${r.what} | ${r.against} | ${r.n} | ${digits(r.meanError)} | ${digits(r.worstError)} | ${r.unit} |`,
  );
  return [
    '| formula | against | n | mean error | worst error | unit |',
    '|---|---|--:|--:|--:|---|',
    ...lines,
  ].join('\n');
}
