import {
  hotConvectionWm2K,
  hotFaceVapourHPa,
  hotFaceVapourSlope,
  hotLatentHeatJkg,
  hotMagnusWaterHPa,
  hotMassPerHPa,
  hotSkyRadiationWm2,
  hotStepSurface,
  planeIrradianceWm2,
  pressureAtElevationHPa,
  windAtRoofMps,
} from '../physics/index.ts';
import { KELVIN_AT_0C, MS_PER_HOUR, STEFAN_BOLTZMANN } from '../units/index.ts';
import { skylineElevationDeg } from './skyline.ts';
import { stackOf } from './surface-stack.ts';
import type { SurfaceSpec, SurfaceWeather, WeatherGrid } from './types.ts';

/** Below this a surface shows no water to a pressed tissue [mm] (common practice). */
export const FILM_VISIBLE_MM = 0.01;
/**
 * Share of the Lewis relation's evaporation that a drying deck is given: the printed table for wet
 * slabs (PCA, recalled) lies 30 % under it in wind, and 'when is it dry' is answered on the slow side.
 */
const LEAVING_SHARE = 0.7;
/**
 * Soaked water above which a panel counts as damp [mm]: what takes the outer 5 mm of a 650 kg/m3
 * board from an everyday 12 % to the 18 % that is not laid on (common practice; depth from memory).
 */
export const SOAKED_DAMP_MM = 0.2;

/**
 * Energy and water balance of one exposed surface under every member, stepped implicitly on the
 * grid: sunlight absorbed, long-wave exchange with the sky, wind convection, storage, conduction to
 * what is below, evaporation or dew. Latent heat is taken from the film and from soaked water.
 * Assumes the surface lies open from the start of the grid; what a covered layer feels is a matter
 * of when it is opened, see `planner`.
 * @param elevationM  site height, for air pressure
 * @source the physics room's formulas, see docs/accuracy.md; tests/laws/surface-weather.test.ts
 */
export function surfaceWeather(
  grid: WeatherGrid,
  spec: SurfaceSpec,
  elevationM: number,
): SurfaceWeather {
  const size = grid.steps * grid.memberCount;
  const out = {
    spec,
    surfaceTempC: new Float32Array(size).fill(Number.NaN),
    dewMarginK: new Float32Array(size).fill(Number.NaN),
    filmMm: new Float32Array(size).fill(Number.NaN),
    soakedMm: new Float32Array(size).fill(Number.NaN),
  };
  const sunLit = absorbedSunlight(grid, spec);
  for (let m = 0; m < grid.memberCount; m += 1) stepMember(grid, spec, m, elevationM, sunLit, out);
  return out;
}

/** Sunlight reaching the plane of the surface [W/m2], before absorptance. */
function absorbedSunlight(
  grid: WeatherGrid,
  spec: SurfaceSpec,
): (at: number, step: number) => number {
  const nearlyFlat = spec.fallDeg < 5 && spec.horizon.length === 0;
  if (nearlyFlat) return (at) => grid.solarWm2[at]!;
  const skyline = new Float32Array(grid.steps);
  for (let i = 0; i < grid.steps; i += 1)
    skyline[i] = skylineElevationDeg(spec.horizon, grid.sunAzimuthDeg[i]!);
  return (at, step) => {
    const globalWm2 = grid.solarWm2[at]!;
    if (globalWm2 <= 0) return 0;
    return planeIrradianceWm2({
      globalWm2,
      diffuseWm2: null,
      sunElevationDeg: grid.sunElevationDeg[step]!,
      sunAzimuthDeg: grid.sunAzimuthDeg[step]!,
      fallDeg: spec.fallDeg,
      azimuthDeg: spec.azimuthDeg,
      skylineElevationDeg: skyline[step]!,
      groundReflectance: 0.2,
    });
  };
}

function stepMember(
  grid: WeatherGrid,
  spec: SurfaceSpec,
  m: number,
  elevationM: number,
  sunLit: (at: number, step: number) => number,
  out: SurfaceWeather,
): void {
  const stack = stackOf(spec);
  const stepS = grid.stepMs / 1000;
  const stepH = grid.stepMs / MS_PER_HOUR;
  // The profile scales wind by one factor whatever the wind.
  const toRoof = windAtRoofMps({
    windMps: 1,
    roofHeightM: spec.roofHeightM,
    terrain: spec.terrain,
  });
  const pressureHPa = pressureAtElevationHPa(elevationM);
  const offset = m * grid.steps;
  let tempC = grid.airTempC[offset]!;
  let filmMm = 0;
  let soakedMm = 0;
  for (let i = 0; i < grid.knownSteps[m]!; i += 1) {
    const at = offset + i;
    const airC = grid.airTempC[at]!;
    const dewC = grid.dewPointC[at]!;
    const vapourHPa = hotMagnusWaterHPa(dewC);
    const hc = hotConvectionWm2K(grid.windMps[at]! * toRoof);
    const sky = hotSkyRadiationWm2(airC, dewC, grid.cloudPct[at]!);
    // A wall faces half sky, half ground at about air temperature.
    const ground = stack.skyView < 1 ? STEFAN_BOLTZMANN * (airC + KELVIN_AT_0C) ** 4 : 0;

    filmMm += grid.rainMm[at]!;
    const soakNow = Math.min(filmMm, spec.soakMmPerHour * stepH, spec.soakMaxMm - soakedMm);
    soakedMm += soakNow;
    filmMm = Math.min(filmMm - soakNow, spec.filmMaxMm);

    // What has just soaked in sits near the face; it leaves more slowly as the face dries (from memory).
    const wetShare = filmMm > 0 ? 1 : spec.soakMaxMm > 0 ? Math.sqrt(soakedMm / spec.soakMaxMm) : 0;
    const excessHPa = hotFaceVapourHPa(tempC) - vapourHPa;
    const latentHeat = hotLatentHeatJkg(tempC);
    // Dew settles on a dry face too; only water that is there can leave.
    const share = excessHPa < 0 ? 1 : wetShare * LEAVING_SHARE;
    const massPerHPa = hotMassPerHPa(hc, pressureHPa) * share;
    const latentWm2 = latentHeat * massPerHPa * excessHPa;
    const latentSlope = latentHeat * massPerHPa * hotFaceVapourSlope(tempC);
    const absorbedWm2 = spec.solarAbsorptance * sunLit(at, i);
    const aroundWm2 = stack.skyView * sky + (1 - stack.skyView) * ground;
    const belowC = spec.below.kind === 'room' ? spec.below.tempC : airC;
    let next = hotStepSurface(
      tempC,
      stack.capacityJm2K,
      stepS,
      absorbedWm2,
      aroundWm2,
      spec.emissivity,
      hc,
      airC,
      stack.conductanceWm2K,
      belowC,
      latentWm2,
      latentSlope,
    );
    // The same flux the balance has just spent, so that no water is made or lost.
    let leftMm = ((latentWm2 + latentSlope * (next - tempC)) / latentHeat) * stepS;
    const mostMm = filmMm + soakedMm;
    if (leftMm > mostMm || (leftMm < 0 && excessHPa > 0)) {
      // Only water that is there takes heat, and a face that was above the dew point gathers none: the
      // straight line of a step goes past both where a film ends or a hot sheet falls into shade.
      leftMm = leftMm > mostMm ? mostMm : 0;
      next = hotStepSurface(
        tempC,
        stack.capacityJm2K,
        stepS,
        absorbedWm2,
        aroundWm2,
        spec.emissivity,
        hc,
        airC,
        stack.conductanceWm2K,
        belowC,
        (leftMm * latentHeat) / stepS,
        0,
      );
    }
    tempC = next;
    if (leftMm <= 0) {
      filmMm = Math.min(filmMm - leftMm, spec.filmMaxMm);
    } else {
      const fromFilm = Math.min(filmMm, leftMm);
      filmMm -= fromFilm;
      soakedMm = Math.max(0, soakedMm - (leftMm - fromFilm));
    }
    out.surfaceTempC[at] = tempC;
    out.dewMarginK[at] = tempC - dewC;
    out.filmMm[at] = filmMm;
    out.soakedMm[at] = soakedMm;
  }
}
