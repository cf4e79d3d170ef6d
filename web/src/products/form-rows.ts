import type { Product } from '../../../src/products/index.ts';

/** A figure of a data sheet that can be typed: where it goes in the file, and in which units it is read. */
export interface FormRow {
  /** As the server names it, without 'product.' in front. */
  readonly field: string;
  readonly label: string;
  readonly units: readonly string[];
  /** How many figures may be printed for it. */
  readonly most: 1 | 2 | 3;
}

const TEMPERATURE = ['°C', '°F'];
const TIME = ['min', 'h', 'd', 's'];

const limit = (key: string, label: string, units: readonly string[]): FormRow => ({
  field: `limits.${key}`,
  label,
  units,
  most: 1,
});
export const LIMIT_ROWS: readonly FormRow[] = [
  limit('airMinC', 'Air at least', TEMPERATURE),
  limit('airMaxC', 'Air at most', TEMPERATURE),
  limit('surfaceMinC', 'Surface at least', TEMPERATURE),
  limit('surfaceMaxC', 'Surface at most', TEMPERATURE),
  limit('dewMarginMinK', 'Above dew point at least', ['K', '°C', '°F']),
  limit('relHumMaxPct', 'Humidity at most', ['%']),
  limit('afterMinC', 'Air afterwards at least', TEMPERATURE),
  limit('hoursAfter', 'Air must stay so for', ['h', 'd', 'min']),
];

const time = (field: string, label: string): FormRow => ({ field, label, units: TIME, most: 3 });
const TIME_ROWS = {
  touchDry: time('touchDry', 'Touch dry after'),
  closeFrom: time('closeFrom', 'Lay in from'),
  openUntil: time('openUntil', 'Open time, usable until'),
  rainAfter: time('rainAfter', 'Rain does no harm after'),
  footTraffic: time('footTraffic', 'Foot traffic after'),
  fullCure: time('fullCure', 'Cured through after'),
};

const REFERENCE_ROWS: readonly FormRow[] = [
  { field: 'reference.airTempC', label: 'Times are for air at', units: TEMPERATURE, most: 1 },
  { field: 'reference.relHumPct', label: 'and humidity of', units: ['%'], most: 1 },
];

const BY_VOLUME = ['m2/L', 'L/m2', 'ml/m2', 'ft2/gal US', 'ft2/gal imp', 'gal US/100 ft2'] as const;
const BY_WEIGHT = ['m2/kg', 'kg/m2', 'g/m2', 'ft2/lb', 'lb/100 ft2'] as const;
const COVERAGE_UNITS: Readonly<Record<Product['coverage']['unit'], readonly string[]>> = {
  'm2/L': [...BY_VOLUME, ...BY_WEIGHT],
  'm2/kg': [...BY_WEIGHT, ...BY_VOLUME],
  'm2/m': ['m2/m', 'mm apart', 'in apart'],
  'm/L': ['m/L', 'L/m', 'ml/m', 'ft/gal US', 'ft/gal imp'],
  'm/tube': ['m/tube', 'ft/tube'],
  'm/roll': ['m/roll', 'ft/roll'],
  'm/m': ['m/m'],
  'm2/m2': ['m2/m2'],
  each: ['each'],
};

export interface RowGroup {
  readonly title: string;
  readonly rows: readonly FormRow[];
}

/** The rows that make sense for a class: no open time for a tape, no touch dry for what is closed wet. */
export function rowsFor(klass: Product): readonly RowGroup[] {
  const { touchDry, closeFrom, openUntil, rainAfter, footTraffic, fullCure } = TIME_ROWS;
  const times =
    klass.mechanism === 'none'
      ? []
      : [
          ...(klass.closing === 'wet' ? [closeFrom] : [touchDry]),
          ...(klass.openUntil === null && klass.closing === 'none' ? [] : [openUntil]),
          rainAfter,
          footTraffic,
          fullCure,
          ...REFERENCE_ROWS,
        ];
  const coverage: FormRow = {
    field: 'coverage',
    label: 'Covers',
    units: COVERAGE_UNITS[klass.coverage.unit],
    most: 2,
  };
  const material: FormRow = {
    field: 'materialTempC',
    label: 'Material itself, from and to',
    units: TEMPERATURE,
    most: 2,
  };
  return [
    { title: 'Times, as printed', rows: times },
    { title: 'Coverage and material, as printed', rows: [coverage, material] },
    { title: 'Limits, as printed', rows: LIMIT_ROWS },
  ].filter(({ rows }) => rows.length > 0);
}
