import { shelterFactor, windAtRoofMps } from '../physics/index.ts';
import type { SheetWeather } from '../products/index.ts';
import { type SurfaceWeather, substrateWm2K, type WeatherGrid } from '../weather/index.ts';

/** The weather over a film on a surface, for clocks and limits: the wind brought down to the roof. */
export function filmOn(grid: WeatherGrid, { spec, surfaceTempC }: SurfaceWeather): SheetWeather {
  return {
    startMs: grid.startMs,
    stepMs: grid.stepMs,
    steps: grid.steps,
    memberCount: grid.memberCount,
    knownSteps: grid.knownSteps,
    airTempC: grid.airTempC,
    rainMm: grid.rainMm,
    surfaceTempC,
    dewPointC: grid.dewPointC,
    windMps: grid.windMps,
    toFilm:
      windAtRoofMps({ windMps: 1, roofHeightM: spec.roofHeightM, terrain: spec.terrain }) *
      shelterFactor(spec),
    substrateWm2K: substrateWm2K(spec),
  };
}
