import { hotMagnusWaterHPa } from '../../physics/index.ts';
import { ownerOf } from './owner.ts';
import type { ProductRule } from './rule.ts';

/** Air no damper than the product allows. */
export const humidity: ProductRule = (product) => {
  const limit = product.limits.relHumMaxPct;
  if (limit === undefined) return null;
  return {
    id: 'humidity',
    whose: ownerOf(limit),
    words: `humidity over ${limit.value} % for ${product.name}`,
    broken: ({ grid }, at) =>
      100 * hotMagnusWaterHPa(grid.dewPointC[at]!) >
      limit.value * hotMagnusWaterHPa(grid.airTempC[at]!),
  };
};
