/**
 * The plain inputs and outputs of the weather room. Times are epoch milliseconds UTC.
 */

/** Where a forecast came from; travels with every number made from it. */
export interface WeatherSource {
  /** 'live' = fetched from the feed now, 'file' = a saved response, 'demo' = bundled invented weather. */
  readonly kind: 'live' | 'file' | 'demo';
  /** The provider's model id, or null where the response does not say. */
  readonly model: string | null;
  /** When the model run became available; null = the response does not say. */
  readonly issuedMs: number | null;
  /** When we fetched it; null for a saved file whose fetch time is unknown. */
  readonly fetchedMs: number | null;
  /** True for weather that was made up; it may only ever be used for demo jobs. */
  readonly invented: boolean;
  /** Credit to print beside the weather, or null where none is due (invented weather). */
  readonly attribution: string | null;
  /** What had to be filled in, in plain words, e.g. 'gusts estimated as 1.6 x mean wind'. */
  readonly notes: readonly string[];
  /** The forecasts were made by us from a single one: they are no weather centre's ensemble. */
  readonly madeFromOne?: true;
}

/** One future: hourly columns of equal length, NaN = missing. Only the weather room reads these. */
export interface HourlyMember {
  /** Instant at the stamp [°C]. */
  readonly airTempC: Float64Array;
  /** Instant at the stamp [°C]; over water. */
  readonly dewPointC: Float64Array | null;
  /** Instant at the stamp [%]; used where dewPointC is null. One of the two is always there. */
  readonly relHumPct: Float64Array | null;
  /** Instant at the stamp, 10 m [m/s]. */
  readonly windMps: Float64Array;
  /** Highest in the hour ending at the stamp, 10 m [m/s]; null = the feed has none. */
  readonly gustMps: Float64Array | null;
  /** Sum over the hour ending at the stamp [mm]. */
  readonly rainMm: Float64Array;
  /** Global horizontal, mean over the hour ending at the stamp [W/m2]. */
  readonly solarWm2: Float64Array;
  /** Instant at the stamp, total cover [%]. */
  readonly cloudPct: Float64Array;
  /** Instant at the stamp: energy of the air for storms [J/kg]; null or left out = the feed has none. */
  readonly capeJkg?: Float64Array | null;
}

/**
 * Rain of one short-range run by the quarter hour. It times the rain that forecasts have within their hours
 * and is no forecast of its own: what it has where they are dry changes none of them.
 */
export interface QuarterRain {
  /** What the model is called, for labels. */
  readonly model: string;
  /** Stamp of the first quarter, on a quarter hour UTC. Stamp q is startMs + q * 900 000. */
  readonly startMs: number;
  /** Sum over the quarter hour ending at the stamp [mm], NaN = missing. */
  readonly rainMm: Float64Array;
  /** Lightning potential at the stamp [J/kg], NaN = missing; null = the model has none. */
  readonly lightningJkg: Float64Array | null;
  /** When what it says was known at the latest: the run's issue time, or before where that is not stated. */
  readonly knownMs: number;
}

/** Hourly weather at one place for all members, as a feed or file gives it. */
export interface HourlyWeather {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly elevationM: number | null;
  /** Stamp of the first hour. Stamp h is startMs + h * 3 600 000. */
  readonly startMs: number;
  readonly hours: number;
  /** One = a single forecast without spread; two or more = an ensemble. */
  readonly members: readonly HourlyMember[];
  /**
   * Chance of more than 0.1 mm in the hour ending at the stamp [%, 0..100], NaN = missing; only with a
   * single forecast, null or left out where it has none.
   */
  readonly rainChancePct?: Float64Array | null;
  /** Rain by the quarter hour where the feed really has it; times what members have, see `QuarterRain`. */
  readonly quarterRain?: QuarterRain;
  readonly source: WeatherSource;
}

/** Wind exposure class around the site (ASHRAE 2005 terrain classes). */
export type Terrain = 'open' | 'suburban' | 'city';

export interface Layer {
  readonly name: string;
  readonly thicknessM: number;
  readonly densityKgM3: number;
  readonly conductivityWmK: number;
  readonly heatCapacityJkgK: number;
}

/** One exposed surface of a roof: everything its weather depends on. */
export interface SurfaceSpec {
  readonly id: string;
  readonly kind: 'deck' | 'sheet' | 'folded-sheet' | 'upstand';
  /** Fraction of sunlight absorbed, 0..1. */
  readonly solarAbsorptance: number;
  /** Long-wave emissivity, 0..1. */
  readonly emissivity: number;
  /** From the exposed face downwards. */
  readonly layers: readonly Layer[];
  /** What is below the last layer. */
  readonly below:
    | { readonly kind: 'room'; readonly tempC: number }
    | { readonly kind: 'outside-air' };
  /** 0 = flat, 90 = wall. */
  readonly fallDeg: number;
  /** Direction the fall faces, 0 = north, 90 = east. */
  readonly azimuthDeg: number;
  /** Skyline, by azimuth; empty = open all round. Elevation between points is interpolated. */
  readonly horizon: readonly { readonly azimuthDeg: number; readonly elevationDeg: number }[];
  /** Lies where the sun's disc never reaches it, whatever the skyline; the sky's light still does. */
  readonly shaded?: boolean;
  readonly roofHeightM: number;
  readonly terrain: Terrain;
  readonly parapetHeightM: number;
  /** Most water that stays as a film after run-off [mm]; 0.1-0.5 for a swept, drained deck. */
  readonly filmMaxMm: number;
  /** Water the surface can soak up [mm] and how fast [mm/h]; 0 for sheet. */
  readonly soakMaxMm: number;
  readonly soakMmPerHour: number;
  /**
   * Water that stays in hollows beyond the film [mm], as deep as in the place that dries last; default 0.
   * On flat roofs 2.5-7.6 mm stay after rain, on paving 1-4 (Denver drainage manual 1984).
   */
  readonly pondingMm?: number;
  /**
   * Ground only, never a roof: water that rises from beneath and leaves as vapour, its resistance [s/m]
   * (FAO-56: 70 for watered grass) and the most of it [mm/h]. Default none.
   */
  readonly rising?: { readonly resistanceSpm: number; readonly mostMmPerHour: number };
}

/** A reading taken on site. */
export interface SiteReading {
  readonly atMs: number;
  readonly surfaceId: string;
  readonly kind: 'surface-temp' | 'air-temp' | 'rel-hum' | 'moisture';
  /** °C, °C, % and % in the order of `kind`. */
  readonly value: number;
}

/**
 * What happened to a surface on site. A layer feels weather only from when it is laid open until it is
 * covered again; what water it held when opened comes from a reading or a core, not from a forecast.
 */
export interface SurfaceHistory {
  /** When it was, or will be, laid open; null = it has lain open since the start of the grid. */
  readonly openedMs: number | null;
  /** When it was, or will be, covered; null = it stays open. */
  readonly coveredMs: number | null;
  /** Moisture of the panel at opening [% of dry mass, 0..100]; null = not known until opened. */
  readonly moistureAtOpeningPct: number | null;
  /** Water swept, squeegeed or blown off, and the film that leaves [mm, 0..10]. */
  readonly dryDowns: readonly { readonly atMs: number; readonly leavesMm: number }[];
  /**
   * Readings; those of other surfaces are passed over, and those of the air, which are the grid's.
   * A surface temperature and a moisture reading put the model where they say from then on.
   */
  readonly readings: readonly SiteReading[];
}

/**
 * All members on the 5-minute grid. Columns hold member m, step i at index m * steps + i; step i
 * covers [startMs + i * stepMs, + stepMs). NaN from the step where a member becomes unknown.
 */
export interface WeatherGrid {
  readonly startMs: number;
  readonly stepMs: number;
  readonly steps: number;
  readonly memberCount: number;
  readonly airTempC: Float32Array;
  readonly dewPointC: Float32Array;
  readonly windMps: Float32Array;
  readonly gustMps: Float32Array;
  /** Sum over the step [mm]. */
  readonly rainMm: Float32Array;
  readonly solarWm2: Float32Array;
  readonly cloudPct: Float32Array;
  /** Energy of the air for storms [J/kg], NaN = not known; left out where no forecast has it. */
  readonly capeJkg?: Float32Array;
  /** Long wave arriving from the sky [W/m2] where it was measured; else it follows from cloud. */
  readonly longwaveWm2?: Float32Array;
  /** Sun's geometric elevation at mid-step [deg], one per step. */
  readonly sunElevationDeg: Float32Array;
  readonly sunAzimuthDeg: Float32Array;
  /** Per member: how many leading steps are known in every variable. */
  readonly knownSteps: Int32Array;
  /** Per member: the variable whose gap ended the known part, or null. */
  readonly endedBy: readonly (string | null)[];
  /** Whose quarter hours time the rain, and the end of the last hour any rain of which they time; left out = none. */
  readonly rainTimedBy?: { readonly model: string; readonly untilMs: number };
  readonly source: WeatherSource;
}

/** What one exposed surface feels, on the grid's columns. */
export interface SurfaceWeather {
  readonly spec: SurfaceSpec;
  /** The grid's own steps. */
  readonly time: Pick<WeatherGrid, 'startMs' | 'stepMs' | 'steps'>;
  readonly surfaceTempC: Float32Array;
  /** Surface temperature minus dew point of the air [K]. */
  readonly dewMarginK: Float32Array;
  /** Water lying on the surface [mm], exposed since the start of the grid or as its history says; NaN while covered. */
  readonly filmMm: Float32Array;
  /** Water soaked into the surface [mm], likewise; NaN as well where it was not known at opening. */
  readonly soakedMm: Float32Array;
}
