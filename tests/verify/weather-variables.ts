import { type DatedCase, dressSingles, readEnsembles } from './weather-data.ts';

export interface Variable {
  readonly name: string;
  readonly file: string;
  readonly leadHours: number;
  readonly unit: string;
  /** What the chance is of. */
  readonly event: string;
  readonly happens: (value: number) => boolean;
  readonly read: () => DatedCase[] | null;
  /** Why its days are no sample of all days: then no frequency of the event may be read from it. */
  readonly selected: string | null;
  /** From bulletins in the public domain: pictures of it may be shown. */
  readonly isPublic: boolean;
  /** Made of one forecast and its errors on other days. */
  readonly isDressed: boolean;
  /** What the note of the data set says of it: shares of rank 0 and of the last rank, ties left out. */
  readonly noted: {
    readonly below?: number;
    readonly above?: number;
    readonly outside?: number;
    readonly skill?: number;
  };
}

/** Below it most adhesives must not be laid (common practice). */
const COLD_C = 5;
/** A hundredth of an inch, the least the source measures. */
const WET_24H_MM = 0.25;
const WET_12H_MM = 0.2;
/** Where handling a sheet becomes a matter for more hands (common practice). */
const WINDY_MPS = 8;

const cold = (tempC: number): boolean => tempC < COLD_C;
const wet = (rainMm: number): boolean => rainMm > WET_24H_MM;

const seattle = (what: string) => () =>
  readEnsembles('ens_ksea_temp_precip_wind_2007_08.csv', {
    day: 'valid_utc',
    place: 'station',
    observed: `obs_${what}`,
    members: new RegExp(`^(?!obs)[a-z]+_${what}$`),
  });

const DAILY_FILE = 'fc_obs_us_daily_minmax_2021_22_a.csv.gz';

const ensembles: readonly Variable[] = [
  {
    name: 'air temperature, Pacific Northwest, Jan 2004',
    file: 'ens_pnw_temp48h_200401.csv.gz',
    leadHours: 48,
    unit: 'K',
    event: `under ${COLD_C} °C`,
    happens: cold,
    read: () =>
      readEnsembles('ens_pnw_temp48h_200401.csv.gz', {
        day: 'date_utc',
        place: 'station',
        observed: 'obs_c',
        members: /^m_.*_c$/,
      }),
    selected: null,
    isPublic: false,
    isDressed: false,
    noted: { outside: 0.74 },
  },
  {
    name: 'rain in 24 h, Pacific Northwest, Dec 2002',
    file: 'ens_pnw_precip24h_200212.csv',
    leadHours: 48,
    unit: 'mm',
    event: `over ${WET_24H_MM} mm`,
    happens: wet,
    read: () =>
      readEnsembles('ens_pnw_precip24h_200212.csv', {
        day: 'date',
        place: null,
        observed: 'obs_mm',
        members: /^m_.*_mm$/,
      }),
    selected: null,
    isPublic: false,
    isDressed: false,
    noted: { skill: 0.35 },
  },
  {
    name: 'rain in 12 h, Innsbruck, 2000-2016',
    file: 'ens_innsbruck_rain12h_lead30h.csv',
    leadHours: 30,
    unit: 'mm',
    event: `over ${WET_12H_MM} mm`,
    happens: (rainMm) => rainMm > WET_12H_MM,
    read: () =>
      readEnsembles('ens_innsbruck_rain12h_lead30h.csv', {
        day: 'valid_end_utc',
        place: null,
        observed: 'obs_mm',
        members: /^m\d+_mm$/,
      }),
    selected: 'reported mostly on days with rain',
    isPublic: false,
    isDressed: false,
    noted: { below: 0.43, above: 0.26 },
  },
  {
    name: 'air temperature, Seattle, Dec 2007',
    file: 'ens_ksea_temp_precip_wind_2007_08.csv',
    leadHours: 48,
    unit: 'K',
    event: `under ${COLD_C} °C`,
    happens: cold,
    read: seattle('temp_c'),
    selected: null,
    isPublic: false,
    isDressed: false,
    noted: {},
  },
  {
    name: 'rain in 24 h, Seattle, Dec 2007',
    file: 'ens_ksea_temp_precip_wind_2007_08.csv',
    leadHours: 48,
    unit: 'mm',
    event: `over ${WET_24H_MM} mm`,
    happens: wet,
    read: seattle('precip24h_mm'),
    selected: null,
    isPublic: false,
    isDressed: false,
    noted: {},
  },
  {
    name: 'strongest wind in 18 h, Seattle, Dec 2007',
    file: 'ens_ksea_temp_precip_wind_2007_08.csv',
    leadHours: 48,
    unit: 'm/s',
    event: `over ${WINDY_MPS} m/s`,
    happens: (windMps) => windMps > WINDY_MPS,
    read: seattle('maxwind18h_ms'),
    selected: null,
    isPublic: false,
    isDressed: false,
    noted: { above: 0.65 },
  },
];

/** Columns of the daily highs, hours from issue to mid-afternoon of the day, and words. */
const DAILY_HIGHS = [
  ['fc_max_d2pm_c', 44, 'two evenings before'],
  ['fc_max_d1am_c', 32, 'the morning before'],
  ['fc_max_d1pm_c', 20, 'the evening before'],
  ['fc_max_d0am_c', 8, 'the same morning'],
] as const;

/** One forecast and its errors on other days, in place of an ensemble. */
const dressed: readonly Variable[] = DAILY_HIGHS.map(([column, leadHours, words]) => ({
  name: `daily high, cities of the US, 2021, forecast of ${words}`,
  file: DAILY_FILE,
  leadHours,
  unit: 'K',
  event: `under ${COLD_C} °C`,
  happens: cold,
  read: () => dressSingles(DAILY_FILE, column, 'obs_max_c'),
  selected: null,
  isPublic: true,
  isDressed: true,
  noted: {},
}));

export const VARIABLES: readonly Variable[] = [...ensembles, ...dressed];
