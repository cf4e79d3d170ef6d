const UNITS = { m2: 'm²', m: 'm' } as const;

/** Rounded down, so that nobody coats more than was worked out. */
export function sizeDown(size: number, unit: 'm2' | 'm'): string {
  const floored = size >= 10 ? Math.floor(size + 1e-6) : Math.floor(size * 10 + 1e-6) / 10;
  return `${floored} ${UNITS[unit]}`;
}
