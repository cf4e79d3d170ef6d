import {
  hotMagnusWaterHPa,
  hotSkyRadiationWm2,
  pressureAtElevationHPa,
  shelterFactor,
  windAtRoofMps,
} from '../physics/index.ts';
import { KELVIN_AT_0C, MS_PER_HOUR, STEFAN_BOLTZMANN } from '../units/index.ts';
import { type Face, type FaceDrive, type FaceState, newState, stepFace } from './surface-core.ts';
import { ladderOf, settleBetween } from './surface-ladder.ts';
import { lightOnFace, type SunOnFace, sunOnFace } from './surface-sun.ts';
import type { SurfaceSpec, SurfaceWeather, WeatherGrid } from './types.ts';

/** Below this a surface shows no water to a pressed tissue [mm] (common practice). */
export const FILM_VISIBLE_MM = 0.01;
/**
 * Soaked water above which a panel counts as damp [mm]: what takes the outer 5 mm of a 650 kg/m3
 * board from an everyday 12 % to the 18 % that is not laid on (common practice; depth from memory).
 */
export const SOAKED_DAMP_MM = 0.2;

/** What all surfaces under one grid share, worked out once. */
interface Air {
  readonly vapourHPa: Float32Array;
  readonly skyWm2: Float32Array;
}
const airOf = new WeakMap<WeatherGrid, Air>();

function airUnder(grid: WeatherGrid): Air {
  const known = airOf.get(grid);
  if (known !== undefined) return known;
  const size = grid.steps * grid.memberCount;
  const air = { vapourHPa: new Float32Array(size), skyWm2: new Float32Array(size) };
  for (let at = 0; at < size; at += 1) {
    const dewC = grid.dewPointC[at]!;
    air.vapourHPa[at] = hotMagnusWaterHPa(dewC);
    air.skyWm2[at] =
      grid.longwaveWm2?.[at] ?? hotSkyRadiationWm2(grid.airTempC[at]!, dewC, grid.cloudPct[at]!);
  }
  airOf.set(grid, air);
  return air;
}

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
  const face = faceOf(grid, spec, elevationM);
  const state = newState(face.ladder);
  const setting = { grid, spec, face, air: airUnder(grid), sun: sunOnFace(grid, spec) };
  for (let m = 0; m < grid.memberCount; m += 1) stepMember(setting, m, state, out);
  return out;
}

function faceOf(grid: WeatherGrid, spec: SurfaceSpec, elevationM: number): Face {
  const stepS = grid.stepMs / 1000;
  const stepH = grid.stepMs / MS_PER_HOUR;
  return {
    ladder: ladderOf(spec, stepS),
    stepS,
    emissivity: spec.emissivity,
    pressureHPa: pressureAtElevationHPa(elevationM),
    filmRoomMm: spec.filmMaxMm + (spec.pondingMm ?? 0),
    soakRoomMm: spec.soakMaxMm,
    soakMmPerStep: spec.soakMmPerHour * stepH,
    resistanceSpm: spec.rising?.resistanceSpm ?? 0,
    supplyMmPerStep: (spec.rising?.mostMmPerHour ?? 0) * stepH,
  };
}

interface Setting {
  readonly grid: WeatherGrid;
  readonly spec: SurfaceSpec;
  readonly face: Face;
  readonly air: Air;
  readonly sun: SunOnFace;
}

function stepMember(
  { grid, spec, face, air, sun }: Setting,
  m: number,
  state: FaceState,
  out: SurfaceWeather,
): void {
  const offset = m * grid.steps;
  const known = grid.knownSteps[m]!;
  if (known === 0) return;
  // The profile and the parapet scale wind by one factor whatever the wind.
  const toFace =
    windAtRoofMps({ windMps: 1, roofHeightM: spec.roofHeightM, terrain: spec.terrain }) *
    shelterFactor({ parapetHeightM: spec.parapetHeightM, roofHeightM: spec.roofHeightM });
  const room = spec.below.kind === 'room' ? spec.below.tempC : Number.NaN;
  const startC = grid.airTempC[offset]!;
  settleBetween(face.ladder, state.tempsC, startC, Number.isNaN(room) ? startC : room);
  state.filmMm = 0;
  state.soakedMm = 0;
  const drive: FaceDrive = {
    absorbedWm2: 0,
    longwaveWm2: 0,
    windMps: 0,
    airC: 0,
    dewC: 0,
    vapourHPa: 0,
    belowC: 0,
    rainMm: 0,
  };
  const skyShare = sun.skyShare;
  for (let i = 0; i < known; i += 1) {
    const at = offset + i;
    const airC = grid.airTempC[at]!;
    drive.absorbedWm2 = spec.solarAbsorptance * lightOnFace(sun, i, grid.solarWm2[at]!);
    drive.longwaveWm2 = skyShare * air.skyWm2[at]!;
    // What is not sky, ground before a wall or a neighbour, is about as warm as the air.
    if (skyShare < 1) {
      const k = airC + KELVIN_AT_0C;
      drive.longwaveWm2 += (1 - skyShare) * STEFAN_BOLTZMANN * k * k * k * k;
    }
    drive.windMps = grid.windMps[at]! * toFace;
    drive.airC = airC;
    drive.dewC = grid.dewPointC[at]!;
    drive.vapourHPa = air.vapourHPa[at]!;
    drive.belowC = spec.below.kind === 'room' ? room : airC;
    drive.rainMm = grid.rainMm[at]!;
    stepFace(face, state, drive);
    out.surfaceTempC[at] = state.tempsC[0]!;
    out.dewMarginK[at] = state.tempsC[0]! - grid.dewPointC[at]!;
    out.filmMm[at] = state.filmMm;
    out.soakedMm[at] = state.soakedMm;
  }
}
