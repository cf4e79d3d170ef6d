import { inRange } from '../units/index.ts';
import type { SurfaceSpec } from './types.ts';

/**
 * Refuses a surface no balance can be drawn up for, by the name of what is wrong. Ranges are wide: they
 * hold off slips of units, not odd roofs.
 * @throws RangeError with name, value and range, NaN included; Error without layers
 */
export function checkSpec(spec: SurfaceSpec): void {
  const check = (name: string, value: number, low: number, high: number): void => {
    inRange(`${spec.id}.${name}`, value, low, high);
  };
  check('solarAbsorptance', spec.solarAbsorptance, 0, 1);
  check('emissivity', spec.emissivity, 0, 1);
  check('fallDeg', spec.fallDeg, 0, 90);
  check('azimuthDeg', spec.azimuthDeg, -360, 360);
  check('filmMaxMm', spec.filmMaxMm, 0, 100);
  check('pondingMm', spec.pondingMm ?? 0, 0, 100);
  check('soakMaxMm', spec.soakMaxMm, 0, 100);
  check('soakMmPerHour', spec.soakMmPerHour, 0, 100);
  check('rising.resistanceSpm', spec.rising?.resistanceSpm ?? 0, 0, 1e5);
  check('rising.mostMmPerHour', spec.rising?.mostMmPerHour ?? 0, 0, 10);
  if (spec.below.kind === 'room') check('below.tempC', spec.below.tempC, -60, 80);
  if (spec.layers.length === 0) throw new Error(`surface ${spec.id} has no layers`);
  spec.layers.forEach((layer, i) => {
    check(`layers[${i}].thicknessM`, layer.thicknessM, 1e-5, 1e4);
    check(`layers[${i}].densityKgM3`, layer.densityKgM3, 1e-4, 2e4);
    check(`layers[${i}].conductivityWmK`, layer.conductivityWmK, 1e-4, 500);
    check(`layers[${i}].heatCapacityJkgK`, layer.heatCapacityJkgK, 1, 1e4);
  });
}
