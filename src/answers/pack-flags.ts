import {
  buildSheetFlags,
  coldAfter,
  PACK_FLAGS,
  type PackFlag,
  type Product,
  SHEET_FLAGS,
  type SheetWeather,
} from '../products/index.ts';

/** Share of forecasts with rain in a step from which rain is called possible. */
const POSSIBLE = 0.2;

/**
 * What stands against a film, step by step: a limit broken in at least half of the forecasts that
 * know the step, rain in half (likely) or a fifth (possible) of them.
 * @param known  steps that count
 */
export function packFlags(
  product: Product,
  weather: SheetWeather,
  known: number,
  rainMmPerHour: number,
): Int32Array {
  const { bits } = buildSheetFlags(product, weather, rainMmPerHour);
  const out = new Int32Array(weather.steps);
  const shares = new Float64Array(SHEET_FLAGS.length);
  for (let i = 0; i < known; i += 1) {
    shares.fill(0);
    let count = 0;
    for (let m = 0; m < weather.memberCount; m += 1) {
      if (i >= weather.knownSteps[m]!) continue;
      count += 1;
      const up = bits[m * weather.steps + i]!;
      for (let n = 0; n < shares.length; n += 1) if ((up & (1 << n)) !== 0) shares[n]! += 1;
    }
    SHEET_FLAGS.forEach((flag, n) => {
      const share = shares[n]! / count;
      if (flag === 'rain') {
        if (share >= 0.5) out[i]! |= PACK_FLAGS.rainLikely;
        else if (share >= POSSIBLE) out[i]! |= PACK_FLAGS.rainPossible;
      } else if (flag !== 'cold' && share >= 0.5) out[i]! |= PACK_FLAGS[flag satisfies PackFlag];
    });
  }
  return out;
}

/**
 * Steps after which, were a film laid in them, at least half of the forecasts that reach that far turn
 * too cold for it. None where the product does not mind or no forecast reaches.
 * @param weather  from the same first step, reaching as far as the product asks
 */
export function coldFlags(
  product: Product,
  weather: SheetWeather,
  steps: number,
  known: number,
): Int32Array {
  const out = new Int32Array(steps);
  const { afterMinC, hoursAfter } = product.limits;
  if (afterMinC === undefined || hoursAfter === undefined) return out;
  const flags = buildSheetFlags(
    { ...product, limits: { afterMinC, hoursAfter } },
    weather,
    Number.POSITIVE_INFINITY,
  );
  for (let i = 0; i < known; i += 1) {
    let cold = 0;
    let warm = 0;
    for (let m = 0; m < weather.memberCount; m += 1) {
      const after = coldAfter(flags, m, weather.startMs + i * weather.stepMs);
      if (after?.kind === 'cold') cold += 1;
      else if (after?.kind === 'warm') warm += 1;
    }
    if (cold > 0 && cold >= warm) out[i] = PACK_FLAGS.afterMinC;
  }
  return out;
}
