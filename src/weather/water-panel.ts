import { inRange } from '../units/index.ts';
import type { SurfaceSpec } from './types.ts';

/** Moisture of a panel that has lain dry [% of dry mass] (common practice); counts as nothing soaked. */
export const PANEL_REST_PCT = 12;
/** Depth that a meter's pins read and that rain wets first [m] (from memory: 5-8 mm). */
const PANEL_FACE_M = 0.005;

/**
 * Water that a moisture reading stands for, over that of a dry panel: share of the dry mass of the outer
 * five millimetres. 18 % on a 650 kg/m3 board is 0.2 mm, the limit of damp. Meters scatter by some points.
 * @param moisturePct [% of dry mass], 0..100; at or under 12 % nothing is soaked
 * @param name  how to call the value in an error
 * @returns [mm]
 * @throws RangeError outside the range, NaN included; Error on a surface without layers
 */
export function panelSoakedMm(
  spec: SurfaceSpec,
  moisturePct: number,
  name = 'moisturePct',
): number {
  const top = spec.layers[0];
  if (top === undefined) throw new Error(`surface ${spec.id} has no layers`);
  const over = Math.max(0, inRange(name, moisturePct, 0, 100) - PANEL_REST_PCT) / 100;
  return over * top.densityKgM3 * Math.min(PANEL_FACE_M, top.thicknessM);
}

/** The other way round: what a meter should read [% of dry mass] where this much is soaked in [mm]. */
export function panelMoisturePct(spec: SurfaceSpec, soakedMm: number): number {
  const top = spec.layers[0];
  if (top === undefined) throw new Error(`surface ${spec.id} has no layers`);
  const soaked = inRange('soakedMm', soakedMm, 0, 100);
  return (
    PANEL_REST_PCT + (100 * soaked) / (top.densityKgM3 * Math.min(PANEL_FACE_M, top.thicknessM))
  );
}
