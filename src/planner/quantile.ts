/**
 * Value below which a share of the numbers lies (lower of the two neighbours: no value is made up).
 * @param share  0..1
 * @returns null for no numbers
 */
export function quantile(values: readonly number[], share: number): number | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? null;
}

export const median = (values: readonly number[]): number | null => quantile(values, 0.5);
