import type { SurfaceSpec } from './types.ts';

/** Height of the skyline in a direction [deg], interpolated between the profile's points. */
export function skylineElevationDeg(horizon: SurfaceSpec['horizon'], azimuthDeg: number): number {
  if (horizon.length === 0) return 0;
  const points = [...horizon].sort((a, b) => a.azimuthDeg - b.azimuthDeg);
  const last = points[points.length - 1]!;
  const first = points[0]!;
  let before = { azimuthDeg: last.azimuthDeg - 360, elevationDeg: last.elevationDeg };
  for (const after of [
    ...points,
    { azimuthDeg: first.azimuthDeg + 360, elevationDeg: first.elevationDeg },
  ]) {
    if (azimuthDeg <= after.azimuthDeg) {
      const span = after.azimuthDeg - before.azimuthDeg;
      const share = span === 0 ? 1 : (azimuthDeg - before.azimuthDeg) / span;
      return before.elevationDeg * (1 - share) + after.elevationDeg * share;
    }
    before = after;
  }
  return last.elevationDeg;
}
