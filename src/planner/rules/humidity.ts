import { hotMagnusWaterHPa } from '../../physics/index.ts';
import type { WeatherGrid } from '../../weather/index.ts';
import type { Marks } from './marks.ts';
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
    mark: ({ grid }, marks) => markDamper(marks, grid, limit.value),
  };
};

function markDamper(
  { cells, broken, bit }: Marks,
  { airTempC, dewPointC }: WeatherGrid,
  mostPct: number,
): void {
  for (const { from, to } of cells) {
    for (let at = from; at < to; at += 1) {
      const saturatedHPa = hotMagnusWaterHPa(airTempC[at]!);
      if (100 * hotMagnusWaterHPa(dewPointC[at]!) > mostPct * saturatedHPa) broken[at]! |= bit;
    }
  }
}
