import { diffuseFraction, extraterrestrialWm2, skyViewOfSkyline } from '../physics/index.ts';
import { degToRad } from '../units/index.ts';
import { skylineElevationDeg } from './skyline.ts';
import type { SurfaceSpec, WeatherGrid } from './types.ts';

/** Light thrown back by what a slope or wall looks down on (usual value). */
const GROUND_REFLECTANCE = 0.2;
/** Sine of an elevation of 0.06 deg: with the disc half set there is no beam to speak of. */
const LEAST_SINE = 1e-3;
/** Below this fall, in the open, a face gets what the level ground gets: within 4 % at a sun of 30 deg. */
const LEVEL_DEG = 2;
const MS_PER_DAY = 86_400_000;
const DAYS_PER_YEAR = 365.2425;

/** The sun over one surface, step by step and alike for all members. */
export interface SunOnFace {
  /** Null: the face is level and open, and gets the global radiation as it is. */
  readonly steps: {
    readonly sine: Float32Array;
    /** Cosine of the angle at which the beam meets the face; 0 behind the skyline or the face. */
    readonly incidence: Float32Array;
    /** Beam outside the air [W/m2]. */
    readonly beyondAirWm2: Float32Array;
  } | null;
  /** What arrives of the sky's diffuse light, and of the global light thrown back from the ground. */
  readonly diffuseShare: number;
  readonly reflectedShare: number;
  /** Share of all a face sees that is open sky. */
  readonly skyShare: number;
}

export function sunOnFace(grid: WeatherGrid, spec: SurfaceSpec): SunOnFace {
  const fall = degToRad(spec.fallDeg);
  const upward = (1 + Math.cos(fall)) / 2;
  const open = skyViewOfSkyline(spec.horizon, spec.fallDeg, spec.azimuthDeg);
  const shares = {
    diffuseShare: upward * open,
    reflectedShare: GROUND_REFLECTANCE * (1 - upward),
    skyShare: upward * open,
  };
  const shaded = spec.shaded === true;
  if (!shaded && spec.fallDeg < LEVEL_DEG && spec.horizon.length === 0)
    return { steps: null, ...shares };
  const sine = new Float32Array(grid.steps);
  const incidence = new Float32Array(grid.steps);
  const beyondAirWm2 = new Float32Array(grid.steps);
  let day = -1;
  let beyond = 0;
  for (let i = 0; i < grid.steps; i += 1) {
    const atMs = grid.startMs + i * grid.stepMs;
    const dayNow = Math.floor(atMs / MS_PER_DAY);
    if (dayNow !== day) {
      day = dayNow;
      // Day 0 was a first of January; leap days shift this by a day at most, 0.01 % of the sun.
      beyond = extraterrestrialWm2(1 + Math.floor(dayNow % DAYS_PER_YEAR));
    }
    const elevation = degToRad(grid.sunElevationDeg[i]!);
    sine[i] = Math.sin(elevation);
    beyondAirWm2[i] = beyond;
    if (shaded) continue;
    const azimuthDeg = grid.sunAzimuthDeg[i]!;
    if (grid.sunElevationDeg[i]! < skylineElevationDeg(spec.horizon, azimuthDeg)) continue;
    incidence[i] = Math.max(
      0,
      sine[i]! * Math.cos(fall) +
        Math.cos(elevation) * Math.sin(fall) * Math.cos(degToRad(azimuthDeg - spec.azimuthDeg)),
    );
  }
  return { steps: { sine, incidence, beyondAirWm2 }, ...shares };
}

/** Sunlight on the face [W/m2], before absorptance: `planeIrradianceWm2` of the physics room, by step. */
export function lightOnFace(sun: SunOnFace, step: number, globalWm2: number): number {
  if (sun.steps === null || globalWm2 <= 0) return Math.max(0, globalWm2);
  const sine = sun.steps.sine[step]!;
  let direct = 0;
  if (sine > LEAST_SINE) {
    const beyond = sun.steps.beyondAirWm2[step]!;
    const diffuse = globalWm2 * diffuseFraction(globalWm2 / (beyond * sine));
    direct = Math.min((globalWm2 - diffuse) / sine, beyond);
  }
  return (
    sun.diffuseShare * (globalWm2 - direct * Math.max(0, sine)) +
    sun.reflectedShare * globalWm2 +
    direct * sun.steps.incidence[step]!
  );
}
