import { markAbove, markBelow } from './marks.ts';
import { onGrid } from './on-grid.ts';
import { ownerOf } from './owner.ts';
import type { ProductRule } from './rule.ts';

/** Air inside the range the product asks for. */
export const airTemp: ProductRule = (product) => {
  const { airMinC, airMaxC } = product.limits;
  if (airMinC === undefined && airMaxC === undefined) return null;
  const low = onGrid(airMinC?.value ?? Number.NEGATIVE_INFINITY);
  const high = onGrid(airMaxC?.value ?? Number.POSITIVE_INFINITY);
  return {
    id: 'air-temp',
    whose: ownerOf(airMinC ?? airMaxC),
    words: `air outside ${rangeWords(airMinC?.value, airMaxC?.value)} for ${product.name}`,
    mark: ({ grid }, marks) => {
      markBelow(marks, grid.airTempC, low);
      markAbove(marks, grid.airTempC, high);
    },
  };
};

export function rangeWords(low: number | undefined, high: number | undefined): string {
  if (low === undefined) return `at most ${high} °C`;
  if (high === undefined) return `at least ${low} °C`;
  return `${low} to ${high} °C`;
}
