import { Clipper, FillRule, type Path64, type Paths64 } from 'clipper2-ts';
import type { Point } from './types.ts';
import { signedAreaM2 } from './vectors.ts';

/**
 * The one door to the polygon library. It works on whole numbers, hence without the failures of
 * floating-point sweeps; a unit is a tenth of a micrometre, so a roof of 1,000 m loses nothing that
 * could be measured: below 0.1 mm2 per metre of outline.
 */
const UNITS_PER_M = 1e7;

/** Closed rings: outer ones counter-clockwise, holes clockwise. */
export type Rings = readonly (readonly Point[])[];

/** Loose rings, either way round, made one. */
export function united(rings: Rings): Rings {
  return fromLibrary(Clipper.union(loose(rings), [], FillRule.NonZero));
}

/** What lies in `rings` and not in `holes`: loose outlines, either way round, that may overlap one another. */
export function without(rings: Rings, holes: Rings): Rings {
  if (holes.length === 0) return united(rings);
  return fromLibrary(Clipper.difference(loose(rings), loose(holes), FillRule.NonZero));
}

/** What lies in both; rings with holes as the functions here give them, or counter-clockwise outlines. */
export function common(a: Rings, b: Rings): Rings {
  return fromLibrary(Clipper.intersect(a.map(pathOf), b.map(pathOf), FillRule.NonZero));
}

/** Area of rings as the functions above give them: holes count against their outer ring [m2]. */
export function ringsAreaM2(rings: Rings): number {
  return rings.reduce((sum, ring) => sum + signedAreaM2(ring), 0);
}

/** Every ring is turned counter-clockwise, so that overlapping pieces add up and none cancels another. */
function loose(rings: Rings): Paths64 {
  return rings.map((ring) => (signedAreaM2(ring) < 0 ? pathOf(ring).reverse() : pathOf(ring)));
}

function pathOf(ring: readonly Point[]): Path64 {
  return ring.map(([x, y]) => ({
    x: Math.round(x * UNITS_PER_M),
    y: Math.round(y * UNITS_PER_M),
  }));
}

function fromLibrary(paths: Paths64): Rings {
  return paths.map((path) => path.map(({ x, y }): Point => [x / UNITS_PER_M, y / UNITS_PER_M]));
}
