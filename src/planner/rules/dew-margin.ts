import { markBelow } from './marks.ts';
import type { ProductRule } from './rule.ts';

/** Degrees above dew point: the sheet's own figure where it prints one, else the firm's, whichever is stricter. */
export const dewMargin: ProductRule = (product, limits) => {
  const printed = product.limits.dewMarginMinK?.value ?? Number.NEGATIVE_INFINITY;
  const needK = Math.max(printed, limits.dewMarginMinK);
  return {
    id: 'dew-margin',
    whose:
      product.limits.dewMarginMinK?.source === 'data sheet' && printed >= needK
        ? 'data sheet'
        : 'firm',
    words: `a surface less than ${needK} K above dew point`,
    mark: ({ surface }, marks) => markBelow(marks, surface.dewMarginK, needK),
  };
};
