import { rangeWords } from './air-temp.ts';
import { markAbove, markBelow } from './marks.ts';
import { onGrid } from './on-grid.ts';
import { ownerOf } from './owner.ts';
import type { ProductRule } from './rule.ts';

/** Surface inside the range the product asks for: cold films do not form, hot ones skin before they are closed. */
export const surfaceTemp: ProductRule = (product) => {
  const { surfaceMinC, surfaceMaxC } = product.limits;
  if (surfaceMinC === undefined && surfaceMaxC === undefined) return null;
  const low = onGrid(surfaceMinC?.value ?? Number.NEGATIVE_INFINITY);
  const high = onGrid(surfaceMaxC?.value ?? Number.POSITIVE_INFINITY);
  return {
    id: 'surface-temp',
    whose: ownerOf(surfaceMinC ?? surfaceMaxC),
    words: `a surface outside ${rangeWords(surfaceMinC?.value, surfaceMaxC?.value)} for ${product.name}`,
    mark: ({ surface }, marks) => {
      markBelow(marks, surface.surfaceTempC, low);
      markAbove(marks, surface.surfaceTempC, high);
    },
  };
};
