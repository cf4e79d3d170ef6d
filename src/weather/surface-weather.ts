import {
  hotConvectionWm2K,
  hotMagnusWaterHPa,
  hotSkyRadiationWm2,
  pressureAtElevationHPa,
  shelterFactor,
  windAtRoofMps,
} from '../physics/index.ts';
import { KELVIN_AT_0C, MS_PER_HOUR, STEFAN_BOLTZMANN } from '../units/index.ts';
import { checkSpec } from './surface-checks.ts';
import { type Face, type FaceDrive, type FaceState, newState, stepFace } from './surface-core.ts';
import { applyEvent, eventsOf, type Site, type SurfaceEvent } from './surface-history.ts';
import { ladderOf, settleBetween } from './surface-ladder.ts';
import { lightOnFace, type SunOnFace, sunOnFace } from './surface-sun.ts';
import type { SurfaceHistory, SurfaceSpec, SurfaceWeather, WeatherGrid } from './types.ts';

/**
 * How long a difference between reading and forecast lasts (fades to 1/e). Measured on a field under
 * forecast-like weather: correlation of the error with itself 0.89, 0.64 and 0.50 after 1, 3 and 4 hours.
 */
const READING_LASTS_MS = 6 * MS_PER_HOUR;
/** Long wave given off per kelvin by a black face near 15 °C [W/m2K]: 4 s T^3. */
const RADIATION_WM2K = 5.4;

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
 * grid: sunlight absorbed, long-wave exchange with the sky, wind convection, storage in each layer,
 * conduction to what is below, evaporation or dew. Latent heat is taken from film and soaked water.
 * @param elevationM  site height, for air pressure
 * @param history  when the surface was opened and covered, dried down and read; without one it lies
 *   open from the start of the grid, which reaches back over the past days
 * @throws RangeError on a surface or a history with a value out of range, NaN included
 * @source the physics room's formulas, see docs/accuracy.md; tests/laws/surface-weather.test.ts
 */
export function surfaceWeather(
  grid: WeatherGrid,
  spec: SurfaceSpec,
  elevationM: number,
  history: SurfaceHistory | null = null,
): SurfaceWeather {
  checkSpec(spec);
  const size = grid.steps * grid.memberCount;
  const out = {
    spec,
    time: { startMs: grid.startMs, stepMs: grid.stepMs, steps: grid.steps },
    surfaceTempC: new Float32Array(size).fill(Number.NaN),
    dewMarginK: new Float32Array(size).fill(Number.NaN),
    filmMm: new Float32Array(size).fill(Number.NaN),
    soakedMm: new Float32Array(size).fill(Number.NaN),
  };
  const face = faceOf(grid, spec, elevationM);
  const setting: Setting = {
    grid,
    spec,
    face,
    air: airUnder(grid),
    sun: sunOnFace(grid, spec),
    // The profile and the parapet scale wind by one factor whatever the wind.
    toFace:
      windAtRoofMps({ windMps: 1, roofHeightM: spec.roofHeightM, terrain: spec.terrain }) *
      shelterFactor({ parapetHeightM: spec.parapetHeightM, roofHeightM: spec.roofHeightM }),
    startsCovered: history !== null && history.openedMs !== null,
    events: history === null ? [] : eventsOf(history, spec, grid),
  };
  const state = newState(face.ladder);
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
  readonly toFace: number;
  readonly startsCovered: boolean;
  readonly events: readonly SurfaceEvent[];
}

function stepMember(
  { grid, spec, face, air, sun, toFace, startsCovered, events }: Setting,
  m: number,
  state: FaceState,
  out: SurfaceWeather,
): void {
  const offset = m * grid.steps;
  const known = grid.knownSteps[m]!;
  if (known === 0) return;
  const room = spec.below.kind === 'room' ? spec.below.tempC : Number.NaN;
  const startC = grid.airTempC[offset]!;
  settleBetween(face.ladder, state.tempsC, startC, Number.isNaN(room) ? startC : room);
  state.filmMm = 0;
  state.soakedMm = 0;
  const site: Site = { covered: startsCovered, moistureKnown: !startsCovered, offK: 0 };
  let next = 0;
  const fades = Math.exp(-grid.stepMs / READING_LASTS_MS);
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
    for (let event = events[next]; event !== undefined && event.step === i; event = events[next]) {
      next += 1;
      applyEvent(event, face.ladder, state, site);
    }
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
    if (site.offK !== 0) {
      // What held the face off its forecast holds on: the heat that keeps up the difference, fading.
      drive.absorbedWm2 +=
        site.offK * (hotConvectionWm2K(drive.windMps) + RADIATION_WM2K * spec.emissivity);
      site.offK *= fades;
    }
    if (site.covered) {
      // No rain, dew or drying reaches a covered face; the cover's warmth stands for its own.
      const soakedMm = state.soakedMm;
      state.filmMm = 0;
      state.soakedMm = 0;
      drive.rainMm = 0;
      stepFace(face, state, drive);
      state.filmMm = 0;
      state.soakedMm = soakedMm;
    } else {
      stepFace(face, state, drive);
      out.filmMm[at] = state.filmMm;
      if (site.moistureKnown) out.soakedMm[at] = state.soakedMm;
    }
    out.surfaceTempC[at] = state.tempsC[0]!;
    out.dewMarginK[at] = state.tempsC[0]! - grid.dewPointC[at]!;
  }
}
