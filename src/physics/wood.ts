import { inRange } from '../units/index.ts';

/**
 * Moisture content solid wood settles at in air that stays as it is (Hailwood-Horrobin).
 * @param args.airTempC [°C], -1..94, the range of the handbook's table
 * @param args.relHumPct [%], 0..95
 * @returns [% of dry mass]; OSB sits 1-3 points lower (from memory)
 * @throws RangeError outside these ranges, NaN included
 * @source USDA Wood Handbook (FPL-GTR-190, 2010) ch. 4 eq. 4-5; tests/published/surface-wood.test.ts
 * @accuracy within 0.1 of the handbook's table 4-2 where it was recalled; 0.4 above it at 60 °C, 55 %
 */
export function woodEquilibriumMoisturePct(args: { airTempC: number; relHumPct: number }): number {
  const t = inRange('airTempC', args.airTempC, -1, 94);
  const h = inRange('relHumPct', args.relHumPct, 0, 95) / 100;
  const w = 349 + 1.29 * t + 0.0135 * t * t;
  const k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const kh = k * h;
  const dissolved = k1 * kh + 2 * k1 * k2 * kh * kh;
  return (1800 / w) * (kh / (1 - kh) + dissolved / (1 + k1 * kh + k1 * k2 * kh * kh));
}
