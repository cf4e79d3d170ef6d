/**
 * Native time steps of ensemble models by lead, as the provider's model pages print them. The feed
 * fills the hours between by interpolation and spreads rain evenly over a coarse step.
 * Source: Open-Meteo ensemble documentation and thread 506 of github.com/open-meteo/open-meteo.
 */
export interface NativeStep {
  /** Holds from this lead on [h after the start of the run]. */
  readonly fromLeadH: number;
  readonly stepHours: 1 | 3 | 6 | 12;
}

const steps = (...pairs: readonly (readonly [number, NativeStep['stepHours']])[]) =>
  pairs.map(([fromLeadH, stepHours]) => ({ fromLeadH, stepHours }));

/** By model id; a model that joins several runs carries the coarser of them. */
export const NATIVE_STEPS: Readonly<Record<string, readonly NativeStep[]>> = {
  ecmwf_ifs025_ensemble: steps([0, 3], [144, 6]),
  ecmwf_aifs025_ensemble: steps([0, 6]),
  ecmwf_ifs_europe_ensemble: steps([0, 1], [90, 3], [144, 6]),
  icon_seamless_eps: steps([0, 1], [48, 3], [72, 6], [120, 12]),
  icon_global_eps: steps([0, 1], [48, 3], [72, 6], [120, 12]),
  icon_eu_eps: steps([0, 1], [48, 3], [72, 6]),
  icon_d2_eps: steps([0, 1]),
  ncep_gefs025: steps([0, 3], [240, 6]),
  ncep_gefs05: steps([0, 3], [240, 6]),
  ncep_gefs_seamless: steps([0, 3], [240, 6]),
  gem_global_ensemble: steps([0, 3]),
  ukmo_global_ensemble_20km: steps([0, 1]),
  ukmo_uk_ensemble_2km: steps([0, 1]),
  meteoswiss_icon_ch1_ensemble: steps([0, 1]),
  meteoswiss_icon_ch2_ensemble: steps([0, 1]),
  bom_access_global_ensemble: steps([0, 3]),
};
