import { cToF, fToC, inRange, mphToMps, mpsToKmh } from '../units/index.ts';

/**
 * What heat, cold and lightning mean for people working outdoors: the indices weather services and
 * labour authorities publish, and their bands. They describe a healthy adult in usual clothing; the
 * employer's own rules, local law and the person's own state come first.
 */

/** Up to this much is added to the heat index in full sun: 15 °F (US National Weather Service). */
export const FULL_SUN_HEAT_INDEX_K = 15 / 1.8;

/**
 * How hot the air feels in the shade with a light wind.
 * Rothfusz' regression with the dry and the damp adjustment where the simple formula, averaged with
 * the air temperature, reaches 80 °F; that average below. The two do not quite meet: at 20 to 50 % the
 * index steps by less than 0.6 K, in bone-dry air it drops by 1.4 K, in saturated air it jumps by 1.9 K.
 * @param args.airTempC [°C], -80..60; below 20 the answer is close to the air temperature and says
 *   nothing about heat
 * @param args.relHumPct [%], 0..100
 * @returns [°C]; add up to `FULL_SUN_HEAT_INDEX_K` in the sun
 * @throws RangeError outside these ranges, NaN included
 * @source Rothfusz, NWS SR 90-23 (1990), after Steadman 1979; tests/published/worker.test.ts
 * @accuracy +/-0.7 K of Steadman's table (to 43 °C, from memory); beyond it the number means no more
 *   than its band
 */
export function heatIndexC(args: { airTempC: number; relHumPct: number }): number {
  const t = cToF(inRange('airTempC', args.airTempC, -80, 60));
  const r = inRange('relHumPct', args.relHumPct, 0, 100);
  const simple = 0.5 * (t + 61 + 1.2 * (t - 68) + 0.094 * r);
  const averaged = (simple + t) / 2;
  if (averaged < 80) return fToC(averaged);
  const full =
    -42.379 +
    2.04901523 * t +
    10.14333127 * r -
    0.22475541 * t * r -
    0.00683783 * t * t -
    0.05481717 * r * r +
    0.00122874 * t * t * r +
    0.00085282 * t * r * r -
    0.00000199 * t * t * r * r;
  if (r < 13 && t >= 80 && t <= 112) {
    return fToC(full - ((13 - r) / 4) * Math.sqrt((17 - Math.abs(t - 95)) / 17));
  }
  if (r > 85 && t >= 80 && t <= 87) return fToC(full + ((r - 85) / 10) * ((87 - t) / 5));
  return fToC(full);
}

export type HeatBand = 'none' | 'caution' | 'extreme caution' | 'danger' | 'extreme danger';

/**
 * The weather service's word for a heat index.
 * @param heatIndexC [°C], -120..400; rounded to a whole °F, as the chart is printed
 * @returns from 80, 90, 103 and 125 °F (26.7, 32.2, 39.4, 51.7 °C) the four words, 'none' below
 * @throws RangeError outside the range, NaN included
 * @source US National Weather Service heat index chart; tests/published/worker.test.ts
 */
export function heatBand(heatIndexC: number): HeatBand {
  const f = Math.round(cToF(inRange('heatIndexC', heatIndexC, -120, 400)));
  if (f >= 125) return 'extreme danger';
  if (f >= 103) return 'danger';
  if (f >= 90) return 'extreme caution';
  return f >= 80 ? 'caution' : 'none';
}

/** Wind chill is defined for more than 3 mph at 10 m. */
const LEAST_CHILL_MPS = mphToMps(3);

/**
 * How cold the wind makes a bare face feel.
 * @param args.airTempC [°C], -80..60; the charts are printed down to -50
 * @param args.windMps at 10 m in the open, as reported [m/s], 0..100. The formula itself takes a part
 *   of it for the height of a face (two thirds, from memory), so do not scale it down
 * @returns [°C], or null where it is not defined: air above 10 °C, or wind of 3 mph (1.34 m/s) or less.
 *   Null is not 'no cold': in a calm the air temperature counts, see `coldBand`
 * @throws RangeError outside these ranges, NaN included
 * @source the 2001 index of the US and Canadian weather services, metric form;
 *   tests/published/worker.test.ts
 * @accuracy the metric and the °F form differ by 0.05 K; sun can raise it by 5 K or more (from memory)
 */
export function windChillC(args: { airTempC: number; windMps: number }): number | null {
  const t = inRange('airTempC', args.airTempC, -80, 60);
  const windMps = inRange('windMps', args.windMps, 0, 100);
  if (t > 10 || windMps <= LEAST_CHILL_MPS) return null;
  const power = mpsToKmh(windMps) ** 0.16;
  return 13.12 + 0.6215 * t - 11.37 * power + 0.3965 * t * power;
}

export type ColdBand = 'none' | 'low' | 'moderate' | 'high' | 'very high' | 'severe' | 'extreme';

/** Warmest whole °C of felt temperature of each band, coldest first. */
const COLD_BANDS: readonly (readonly [warmestC: number, band: ColdBand])[] = [
  [-55, 'extreme'],
  [-48, 'severe'],
  [-40, 'very high'],
  [-28, 'high'],
  [-10, 'moderate'],
  [0, 'low'],
];

/** Minutes in which bare skin can freeze, from..to; sooner in wind above 50 km/h (13.9 m/s). */
export const SKIN_FREEZES_MIN: Readonly<
  Record<ColdBand, readonly [fromMin: number, toMin: number] | null>
> = {
  none: null,
  low: null,
  moderate: null,
  high: [10, 30],
  'very high': [5, 10],
  severe: [2, 5],
  extreme: [0, 2],
};

/**
 * The hazard of cold: of the wind chill, or of the air temperature where wind chill is not defined.
 * @param args.airTempC [°C], -80..60
 * @param args.windMps at 10 m in the open, as reported [m/s], 0..100
 * @returns from 0, -10, -28, -40, -48 and -55 °C down the six words, 'none' above; rounded to a whole
 *   °C, half degrees to the cold side
 * @throws RangeError outside these ranges, NaN included
 * @source Environment Canada wind chill hazards (limits and freezing times read in print, the words
 *   from memory); tests/published/worker.test.ts
 * @accuracy at 3 mph the index sets in with a step: 0.2 K at 10 °C, 3 K at -10, 8 K at -50. Wet clothing
 *   is not in it
 */
export function coldBand(args: { airTempC: number; windMps: number }): ColdBand {
  const felt = windChillC(args) ?? args.airTempC;
  const whole = -Math.round(-felt);
  return COLD_BANDS.find(([warmestC]) => whole <= warmestC)?.[1] ?? 'none';
}

/**
 * Wet-bulb globe temperature, the measure heat limits for work are written in.
 * @param args.naturalWetBulbC of a wetted bulb in the wind and sun of the place [°C], -40..60. Not the
 *   psychrometric wet bulb of `wetBulbC`, which a fan and a shield keep lower
 * @param args.globeTempC of a black globe of 150 mm [°C], -40..100
 * @param args.inSun true outdoors in sun; false indoors or without sun, where the air falls out
 * @param args.airTempC in sun only: in the shade of a shield [°C], -40..60
 * @returns [°C]
 * @throws RangeError outside these ranges, NaN included
 * @source ISO 7243; NIOSH 2016-106; tests/published/worker.test.ts
 * @accuracy a definition; from a forecast, natural wet bulb and globe have to be estimated first
 */
export function wetBulbGlobeC(
  args: { naturalWetBulbC: number; globeTempC: number } & (
    | { inSun: true; airTempC: number }
    | { inSun: false }
  ),
): number {
  const wet = inRange('naturalWetBulbC', args.naturalWetBulbC, -40, 60);
  const globe = inRange('globeTempC', args.globeTempC, -40, 100);
  if (!args.inSun) return 0.7 * wet + 0.3 * globe;
  return 0.7 * wet + 0.2 * globe + 0.1 * inRange('airTempC', args.airTempC, -40, 60);
}

/** Heat a body gives off at work [W], mean of an hour, person of 70 kg (NIOSH 2016-106). */
export const METABOLIC_W = { light: 180, moderate: 300, heavy: 415, veryHeavy: 520 } as const;

/**
 * Wet-bulb globe temperature above which work at this rate goes beyond the NIOSH limit.
 * @param args.metabolicW mean of the hour, rests included [W], 100..600; see `METABOLIC_W`
 * @param args.acclimatised true: recommended exposure limit (REL); false: alert limit (RAL), for those
 *   not used to the heat, which takes one to two weeks
 * @returns [°C] of `wetBulbGlobeC`
 * @throws RangeError outside these ranges, NaN included
 * @source NIOSH 2016-106 ch. 8; tests/published/worker.test.ts
 * @accuracy within 0.3 K of the ACGIH screening values. Transcriptions disagree on whether the document
 *   prints the equations or only the curves. For usual work clothing; coveralls and masks lower it
 */
export function nioshLimitC(args: { metabolicW: number; acclimatised: boolean }): number {
  const logW = Math.log10(inRange('metabolicW', args.metabolicW, 100, 600));
  return args.acclimatised ? 56.7 - 11.5 * logW : 59.9 - 14.1 * logW;
}

/**
 * The 30/30 rule: off the roof when thunder follows the flash within 30 s, back no sooner than 30 min
 * after the last thunder. Thunder heard at all already means lightning can reach the site.
 * Source: US National Weather Service.
 */
export const lightning = { shelterAtFlashToBangS: 30, resumeAfterMin: 30 } as const;

/**
 * How far off a flash was.
 * @param flashToBangS from flash to thunder [s], 0..300
 * @returns [km], by the rule of a mile in five seconds: sound does 343 m/s at 20 °C, the rule 322, so the
 *   answer is on the near side
 * @throws RangeError outside the range, NaN included
 * @source US National Weather Service; tests/published/worker.test.ts
 * @accuracy 6 % near; thunder is seldom heard beyond 15-20 km (from memory)
 */
export function flashDistanceKm(flashToBangS: number): number {
  return (inRange('flashToBangS', flashToBangS, 0, 300) / 5) * 1.609344;
}
