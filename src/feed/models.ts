/** One ensemble model the provider offers, as its documentation describes it. */
export interface EnsembleModel {
  readonly id: string;
  /** Forecasts in one answer, the one without a number included. */
  readonly count: number;
  readonly horizonDays: number;
  /** Folder of its run file; null where the model joins several runs. */
  readonly runFile: string | null;
}

const model = (id: string, count: number, horizonDays: number, runFile: string | null = id) => ({
  id,
  count,
  horizonDays,
  runFile,
});

/**
 * Models that carry humidity and radiation. Run-file names of the models that are not spelled out in
 * the provider's documentation are taken to be the model's own id; a wrong one only costs the issue time.
 */
export const ENSEMBLE_MODELS: readonly EnsembleModel[] = [
  model('ecmwf_ifs025_ensemble', 51, 15),
  model('ecmwf_ifs_europe_ensemble', 51, 15),
  model('ecmwf_aifs025_ensemble', 51, 15),
  model('icon_seamless_eps', 40, 7.5, null),
  model('icon_global_eps', 40, 7.5, 'dwd_icon_eps'),
  model('icon_eu_eps', 40, 5, 'dwd_icon_eu_eps'),
  model('icon_d2_eps', 20, 2),
  model('ncep_gefs025', 31, 10),
  model('ncep_gefs05', 31, 35),
  model('ncep_gefs_seamless', 31, 35, null),
  model('gem_global_ensemble', 21, 16),
  model('ukmo_global_ensemble_20km', 18, 8),
  model('ukmo_uk_ensemble_2km', 3, 5),
  model('meteoswiss_icon_ch1_ensemble', 11, 1.375),
  model('meteoswiss_icon_ch2_ensemble', 21, 5),
  model('bom_access_global_ensemble', 18, 10),
];

/** Forecast days asked of a live feed: as far as ensembles reach. */
export const FORECAST_DAYS = 15;
export const DEFAULT_MODEL = 'ecmwf_ifs025_ensemble';

/** The provider's own choice of deterministic models, used for the hourly run. */
export const BEST_MATCH = 'best_match';

export function findModel(id: string): EnsembleModel | null {
  return ENSEMBLE_MODELS.find((m) => m.id === id) ?? null;
}
