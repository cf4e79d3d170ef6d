import { fToC, inchToMm, kmhToMps, knotsToMps, mphToMps } from '../units/index.ts';

/** The hourly variables Layfair reads, by the provider's name. */
export type Variable =
  | 'temperature_2m'
  | 'dew_point_2m'
  | 'relative_humidity_2m'
  | 'wind_speed_10m'
  | 'wind_gusts_10m'
  | 'precipitation'
  | 'cloud_cover'
  | 'shortwave_radiation'
  | 'cape'
  | 'precipitation_probability';

export interface VariableRule {
  /** Unit text in `hourly_units` -> conversion into our unit. */
  readonly units: Readonly<Record<string, (value: number) => number>>;
  readonly ourUnit: string;
  /** Accepted after conversion; wider than any record, narrow enough to catch a wrong unit or a -9999. */
  readonly low: number;
  readonly high: number;
}

const same = (value: number): number => value;
const TEMPERATURE = { '°C': same, '°F': fToC };
// The provider writes miles per hour as 'mp/h'; 'mph' is what people correct it to by hand.
const SPEED = { 'm/s': same, 'km/h': kmhToMps, 'mp/h': mphToMps, mph: mphToMps, kn: knotsToMps };
const PERCENT = { '%': same };

export const VARIABLE_RULES: Readonly<Record<Variable, VariableRule>> = {
  temperature_2m: { units: TEMPERATURE, ourUnit: '°C', low: -90, high: 60 },
  dew_point_2m: { units: TEMPERATURE, ourUnit: '°C', low: -100, high: 40 },
  relative_humidity_2m: { units: PERCENT, ourUnit: '%', low: 0, high: 110 },
  wind_speed_10m: { units: SPEED, ourUnit: 'm/s', low: 0, high: 120 },
  wind_gusts_10m: { units: SPEED, ourUnit: 'm/s', low: 0, high: 120 },
  precipitation: { units: { mm: same, inch: inchToMm }, ourUnit: 'mm', low: 0, high: 500 },
  cloud_cover: { units: PERCENT, ourUnit: '%', low: 0, high: 100 },
  // Pyranometers and models both give a few W/m2 below zero at night.
  shortwave_radiation: { units: { 'W/m²': same }, ourUnit: 'W/m²', low: -20, high: 1500 },
  cape: { units: { 'J/kg': same }, ourUnit: 'J/kg', low: 0, high: 15_000 },
  precipitation_probability: { units: PERCENT, ourUnit: '%', low: 0, high: 100 },
};

export const VARIABLES = Object.keys(VARIABLE_RULES) as readonly Variable[];

/** Every forecast needs these, and dew point or relative humidity besides. */
export const REQUIRED: readonly Variable[] = [
  'temperature_2m',
  'wind_speed_10m',
  'precipitation',
  'cloud_cover',
  'shortwave_radiation',
];

export const NEEDED_SENTENCE =
  'Layfair needs temperature_2m, wind_speed_10m, precipitation, cloud_cover, shortwave_radiation ' +
  'and dew_point_2m or relative_humidity_2m';
