import { degToRad, inRange } from '../units/index.ts';

/** Widest slice of azimuth taken in one piece [deg]. */
const SLICE_DEG = 1;

/** The two places in a slice of 0..1 whose mean is exact for cubics (Gauss-Legendre). */
const GAUSS = [0.5 - Math.sqrt(3) / 6, 0.5 + Math.sqrt(3) / 6] as const;

/** Light of an even sky between a lower edge and the zenith, per radian of azimuth, times pi. */
function slice(edge: number, cosFall: number, sinFallToward: number): number {
  const cosEdge = Math.cos(edge);
  const upright = Math.PI / 2 - edge - Math.sin(edge) * cosEdge;
  return (cosFall * cosEdge * cosEdge + sinFallToward * upright) / 2;
}

/**
 * Share of the light of an even sky that still reaches a plane under a skyline: 1 in the open, whatever
 * the fall. It is what `planeIrradianceWm2` takes as `skyViewShare`. For a flat plane it is the sky view
 * factor, 1 - mean of sin^2(elevation) over all azimuths.
 * @param points the skyline, in any order, azimuth from north 0..360, elevation -90..90; straight lines
 *   between, round through north; two points at one azimuth make a step. Empty = open. A skyline below
 *   the horizon hides no sky
 * @param fallDeg 0 = flat, 90 = wall
 * @param azimuthDeg direction the fall faces, from north, -360..360; no matter for a flat plane
 * @returns 0..1
 * @throws RangeError outside these ranges, NaN included
 * @source Dozier & Frew 1990, IEEE Trans. Geosci. Remote Sens. 28:963, eq. 7b, with the part of the sky
 *   behind the plane itself cut off; tests/published/sky-view.test.ts
 * @accuracy 1e-5 of the integral, by a finer sum. Light thrown back by what stands in the way is not in it
 */
export function skyViewOfSkyline(
  points: readonly { readonly azimuthDeg: number; readonly elevationDeg: number }[],
  fallDeg: number,
  azimuthDeg: number,
): number {
  const fall = degToRad(inRange('fallDeg', fallDeg, 0, 90));
  const facing = inRange('azimuthDeg', azimuthDeg, -360, 360);
  const ring = points
    .map((p, i) => ({
      azimuthDeg: inRange(`points[${i}].azimuthDeg`, p.azimuthDeg, 0, 360),
      elevationDeg: inRange(`points[${i}].elevationDeg`, p.elevationDeg, -90, 90),
    }))
    .sort((a, b) => a.azimuthDeg - b.azimuthDeg);
  const first = ring[0];
  if (first === undefined) return 1;

  const cosFall = Math.cos(fall);
  const sinFall = Math.sin(fall);
  let seen = 0;
  let open = 0;
  ring.forEach((from, i) => {
    const to = ring[i + 1] ?? { ...first, azimuthDeg: first.azimuthDeg + 360 };
    const spanDeg = to.azimuthDeg - from.azimuthDeg;
    const slices = Math.ceil(spanDeg / SLICE_DEG);
    for (let s = 0; s < slices; s += 1) {
      for (const place of GAUSS) {
        const share = (s + place) / slices;
        const toward = Math.cos(degToRad(from.azimuthDeg + share * spanDeg - facing));
        const skylineDeg = from.elevationDeg * (1 - share) + to.elevationDeg * share;
        // Looking up the fall, the plane itself hides the low sky.
        const own = Math.max(0, Math.atan2(-sinFall * toward, cosFall));
        const width = spanDeg / slices;
        open += width * slice(own, cosFall, sinFall * toward);
        seen += width * slice(Math.max(own, degToRad(skylineDeg)), cosFall, sinFall * toward);
      }
    }
  });
  return Math.min(1, Math.max(0, seen / open));
}
