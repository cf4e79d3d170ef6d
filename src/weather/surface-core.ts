import {
  hotConvectionWm2K,
  hotFaceSlopeOf,
  hotFaceVapourHPa,
  hotLatentHeatJkg,
  hotMassPerHPa,
  hotStepSurface,
} from '../physics/index.ts';
import { KELVIN_AT_0C } from '../units/index.ts';
import type { Ladder } from './surface-ladder.ts';

/**
 * Share of the Lewis relation's evaporation that a drying deck is given: the printed table for wet
 * slabs (PCA, recalled) lies 30 % under it in wind, and 'when is it dry' is answered on the slow side.
 */
export const LEAVING_SHARE = 0.7;
/** Water [J/kgK]. */
const WATER_JKGK = 4186;
/** Gas constant of water vapour [J/kgK]; turns a mass flux per hPa into one per kg/m3. */
const VAPOUR_GAS_JKGK = 461.5;
/** A face this far over the dew point gathers nothing, not even frost at -40 °C [K]. */
const NO_DEW_K = 5;
/** A step that moved the face further than this is taken again about where it landed [K]. */
const AGAIN_K = 1;
const MOST_TRIES = 4;

/** What one face is, for steps of one length. */
export interface Face {
  readonly ladder: Ladder;
  readonly stepS: number;
  readonly emissivity: number;
  readonly pressureHPa: number;
  /** Most water that stays lying [mm]; more runs off. */
  readonly filmRoomMm: number;
  readonly soakRoomMm: number;
  readonly soakMmPerStep: number;
  /** Water that comes up from beneath, as from soil: its resistance [s/m] and most per step [mm]; 0 = none. */
  readonly resistanceSpm: number;
  readonly supplyMmPerStep: number;
}

/** What acts on a face over one step. */
export interface FaceDrive {
  absorbedWm2: number;
  /** Long wave arriving, before emissivity. */
  longwaveWm2: number;
  /** Over the face. */
  windMps: number;
  airC: number;
  dewC: number;
  vapourHPa: number;
  belowC: number;
  rainMm: number;
}

/** Temperatures and water of a face; changed in place. Water fluxes are those of the last step. */
export interface FaceState {
  readonly tempsC: Float64Array;
  readonly scratch: Float64Array;
  filmMm: number;
  soakedMm: number;
  ranOffMm: number;
  /** Left as vapour from film and soaked water; dew and frost count negative. */
  leftMm: number;
  /** Left as vapour from beneath. */
  risenMm: number;
}

export function newState(ladder: Ladder): FaceState {
  return {
    tempsC: new Float64Array(ladder.nodes),
    scratch: new Float64Array(ladder.nodes),
    filmMm: 0,
    soakedMm: 0,
    ranOffMm: 0,
    leftMm: 0,
    risenMm: 0,
  };
}

/**
 * One step of heat and water of a layered face: implicit in every layer, so no step is too long. The
 * layers below the face are eliminated first; what is left is one equation for the face, its long wave
 * and its latent heat taken as straight lines, and drawn again where the face has moved far.
 * Water never comes from nothing: film + soaked after = before + rain - runoff - left, to rounding.
 * No checks: a NaN in gives a NaN out.
 */
export function stepFace(face: Face, state: FaceState, drive: FaceDrive): void {
  const { ladder, stepS, soakRoomMm } = face;
  const { tempsC, scratch } = state;
  const { airC, dewC, vapourHPa, windMps } = drive;
  // McAdams' 5.7 W/m2K in a calm stands for free convection too: Walton's is less up to 54 K over the air.
  const hc = hotConvectionWm2K(windMps);

  // Rain comes at the temperature of the air and mixes with what lies there.
  let holds = ladder.holdsJm2K[0]! + WATER_JKGK * state.filmMm;
  let startC = tempsC[0]!;
  let film = state.filmMm;
  let soaked = state.soakedMm;
  if (drive.rainMm > 0) {
    const added = WATER_JKGK * drive.rainMm;
    startC = (holds * startC + added * airC) / (holds + added);
    film += drive.rainMm;
  }
  state.ranOffMm = 0;
  if (film > 0) {
    const soaks = Math.min(film, face.soakMmPerStep, Math.max(0, soakRoomMm - soaked));
    soaked += soaks;
    film -= soaks;
    if (film > face.filmRoomMm) {
      state.ranOffMm = film - face.filmRoomMm;
      film = face.filmRoomMm;
    }
    holds = ladder.holdsJm2K[0]! + WATER_JKGK * film;
  }

  let under = drive.belowC;
  for (let i = ladder.nodes - 1; i >= 1; i -= 1) {
    under = (ladder.storeWm2K[i]! * tempsC[i]! + ladder.pathWm2K[i]! * under) * ladder.inverse[i]!;
    scratch[i] = under;
  }
  // Storage of the face itself is one more path: to where it was.
  const heldWm2K = holds / stepS;
  const pathsWm2K = heldWm2K + ladder.underWm2K;
  const anchorC = (heldWm2K * startC + ladder.pathWm2K[0]! * under) / pathsWm2K;

  const water = film + soaked;
  const mostMm = water + face.supplyMmPerStep;
  const perHPa = hotMassPerHPa(hc, face.pressureHPa);
  let ownShare = 0;
  let risenShare = 0;
  if (film > 0) ownShare = LEAVING_SHARE;
  else {
    // What has just soaked in sits near the face; it leaves more slowly as the face dries (from memory).
    if (soaked > 0) ownShare = LEAVING_SHARE * Math.min(1, Math.sqrt(soaked / soakRoomMm));
    if (face.supplyMmPerStep > 0) {
      const metresPerS = perHPa * 0.01 * VAPOUR_GAS_JKGK * (airC + KELVIN_AT_0C);
      risenShare = (1 - ownShare) / (1 + face.resistanceSpm * metresPerS);
    }
  }
  const leavingShare = ownShare + risenShare;

  let tempC = startC;
  let leftMm = 0;
  for (let tries = 0; tries < MOST_TRIES; tries += 1) {
    const fromC = tempC;
    if (mostMm <= 0 && fromC > dewC + NO_DEW_K) {
      leftMm = 0;
      tempC = settle(face, drive, fromC, hc, pathsWm2K, anchorC, 0, 0);
    } else {
      const latentHeat = hotLatentHeatJkg(fromC);
      const faceHPa = hotFaceVapourHPa(fromC);
      const excessHPa = faceHPa - vapourHPa;
      // Dew settles on a dry face too; only water that is there can leave.
      const flux = latentHeat * perHPa * (excessHPa < 0 ? 1 : leavingShare);
      const latentWm2 = flux * excessHPa;
      const slope = flux * hotFaceSlopeOf(fromC, faceHPa);
      tempC = settle(face, drive, fromC, hc, pathsWm2K, anchorC, latentWm2, slope);
      // The same flux the balance has just spent, so that no water is made or lost.
      leftMm = ((latentWm2 + slope * (tempC - fromC)) / latentHeat) * stepS;
      if (leftMm > mostMm || (leftMm < 0 && excessHPa > 0)) {
        // Only water that is there takes heat, and a face that was above the dew point gathers none: the
        // straight line of a step goes past both where a film ends or a hot sheet falls into shade.
        leftMm = leftMm > mostMm ? mostMm : 0;
        tempC = settle(
          face,
          drive,
          fromC,
          hc,
          pathsWm2K,
          anchorC,
          (leftMm * latentHeat) / stepS,
          0,
        );
      }
    }
    if (Math.abs(tempC - fromC) < AGAIN_K) break;
  }

  tempsC[0] = tempC;
  for (let i = 1; i < ladder.nodes; i += 1) {
    tempsC[i] = scratch[i]! + ladder.follows[i]! * tempsC[i - 1]!;
  }

  state.risenMm = 0;
  if (leftMm > 0) {
    if (risenShare > 0) {
      state.risenMm = Math.min(face.supplyMmPerStep, (leftMm * risenShare) / leavingShare);
      leftMm -= state.risenMm;
    }
    // Supply that fell short of its share is not made up from water that is not there.
    if (leftMm > water) {
      state.risenMm += leftMm - water;
      leftMm = water;
    }
    const fromFilm = Math.min(film, leftMm);
    film -= fromFilm;
    soaked = Math.max(0, soaked - (leftMm - fromFilm));
  } else {
    film -= leftMm;
    if (film > face.filmRoomMm) {
      state.ranOffMm += film - face.filmRoomMm;
      film = face.filmRoomMm;
    }
  }
  state.leftMm = leftMm;
  state.filmMm = film;
  state.soakedMm = soaked;
}

function settle(
  face: Face,
  drive: FaceDrive,
  fromC: number,
  hc: number,
  pathsWm2K: number,
  anchorC: number,
  latentWm2: number,
  slopeWm2K: number,
): number {
  return hotStepSurface(
    fromC,
    0,
    face.stepS,
    drive.absorbedWm2,
    drive.longwaveWm2,
    face.emissivity,
    hc,
    drive.airC,
    pathsWm2K,
    anchorC,
    latentWm2,
    slopeWm2K,
  );
}
