/**
 * Share of the sky a skyline leaves (Dozier & Frew 1990, eq. 7b) against closed forms of the view
 * factor, and what it does to light on a plane.
 */
import { describe, expect, it } from 'vitest';
import { planeIrradianceWm2, skyViewOfSkyline } from '../../src/physics/index.ts';
import { degToRad } from '../../src/units/index.ts';
import { PLANE } from '../fixtures/published/sun.ts';

type Skyline = Parameters<typeof skyViewOfSkyline>[0];
const ring = (elevationDeg: number): Skyline => [{ azimuthDeg: 0, elevationDeg }];
/** An endless wall: seen from its foot-line at a right angle `heightDeg` high, dropping to both ends. */
const endlessWall = (heightDeg: number, awayDeg: number): Skyline =>
  Array.from({ length: 721 }, (_, i) => {
    const azimuthDeg = i / 2;
    const toward = Math.max(0, Math.cos(degToRad(azimuthDeg - awayDeg)));
    const elevation = Math.atan(Math.tan(degToRad(heightDeg)) * toward);
    return { azimuthDeg, elevationDeg: (elevation * 180) / Math.PI };
  });
const halfRound = (elevationDeg: number): Skyline => [
  { azimuthDeg: 0, elevationDeg },
  { azimuthDeg: 180, elevationDeg },
  { azimuthDeg: 180, elevationDeg: 0 },
  { azimuthDeg: 360, elevationDeg: 0 },
];

describe('sky over a flat plane', () => {
  it('in the open is all there, and so it is above a skyline lower than the roof', () => {
    expect(skyViewOfSkyline([], 0, 0)).toBe(1);
    expect(skyViewOfSkyline(ring(0), 0, 0)).toBe(1);
    expect(skyViewOfSkyline(ring(-20), 0, 0)).toBe(1);
  });

  // Closed form: cone of half-angle 90 - h seen from its axis, cos^2 h.
  it.each([5, 10, 30, 45, 60, 85, 90])('inside an even ring of %i deg is cos^2', (h) => {
    expect(skyViewOfSkyline(ring(h), 0, 0)).toBeCloseTo(Math.cos(degToRad(h)) ** 2, 12);
  });

  it('at the foot of a wall without end, upwards and sideways, is half', () => {
    expect(skyViewOfSkyline(halfRound(90), 0, 0)).toBeCloseTo(0.5, 12);
  });

  // Half a ring of 30 deg: (1 + cos^2 30)/2.
  it('inside half a ring is the mean of both halves', () => {
    expect(skyViewOfSkyline(halfRound(30), 0, 123)).toBeCloseTo(0.875, 12);
  });

  // Closed form of an endless wall of elevation h (crossed strings): (1 + cos h)/2.
  it.each([10, 30, 60, 80])('beside an endless wall %i deg high is (1 + cos)/2', (h) => {
    const got = skyViewOfSkyline(endlessWall(h, 70), 0, 0);
    expect(Math.abs(got - (1 + Math.cos(degToRad(h))) / 2)).toBeLessThan(2e-4);
  });

  // 1 - mean of sin^2 for a skyline rising straight from 0 to 90 deg and back: 1/2.
  it('takes the skyline straight between its points', () => {
    const tent: Skyline = [
      { azimuthDeg: 180, elevationDeg: 90 },
      { azimuthDeg: 0, elevationDeg: 0 },
    ];
    expect(skyViewOfSkyline(tent, 0, 0)).toBeCloseTo(0.5, 6);
  });
});

describe('a skyline that goes round through north', () => {
  // A quarter of 60 deg, a quarter open, straight ramps of a quarter between. Mean of sin^2 on a ramp
  // from 0 to H: 1/2 - sin(2H)/(4H).
  it('is the mean of its quarters', () => {
    const quarters: Skyline = [
      { azimuthDeg: 0, elevationDeg: 60 },
      { azimuthDeg: 90, elevationDeg: 60 },
      { azimuthDeg: 180, elevationDeg: 0 },
      { azimuthDeg: 270, elevationDeg: 0 },
    ];
    const h = Math.PI / 3;
    const ramp = 0.5 - Math.sin(2 * h) / (4 * h);
    expect(skyViewOfSkyline(quarters, 0, 0)).toBeCloseTo(1 - (0.75 + 2 * ramp) / 4, 8);
  });
});

describe('sky over a slope', () => {
  it.each([3, 40, 90])('of %i deg in the open is all the slope can have', (fallDeg) => {
    expect(skyViewOfSkyline(ring(0), fallDeg, 77)).toBe(1);
  });

  // Closed form: in the cross-section the slope S sees from h up to its own plane behind, 180 - S, and
  // the half-integral of the cosine over that is (1 + cos(S + h))/2, of (1 + cos S)/2 in the open.
  it.each([
    [20, 30],
    [40, 50],
    [90, 60],
  ])('of %i deg facing an endless wall of %i deg is (1 + cos(fall + wall))/2', (s, h) => {
    const left = (1 + Math.cos(degToRad(s + h))) / 2;
    const open = (1 + Math.cos(degToRad(s))) / 2;
    expect(Math.abs(skyViewOfSkyline(endlessWall(h, 70), s, 70) - left / open)).toBeLessThan(3e-4);
  });

  // Behind the plane of the slope there is no sky of its own to lose.
  it('loses nothing to a wall that its own plane hides', () => {
    expect(skyViewOfSkyline(endlessWall(30, 250), 30, 70)).toBeGreaterThan(0.9999);
    expect(skyViewOfSkyline(halfRound(90), 90, 270)).toBeCloseTo(1, 12);
  });

  it('says which point is wrong', () => {
    const bad = [...ring(5), { azimuthDeg: 370, elevationDeg: 5 }];
    expect(() => skyViewOfSkyline(bad, 0, 0)).toThrow(
      'points[1].azimuthDeg (370) must be in 0..360',
    );
  });
});

describe('light under a skyline that hides sky', () => {
  // pvlib prints direct, sky and ground apart: only the sky part goes down.
  it.each(PLANE.rows)('of $globalWm2 W/m2 loses sky light only', (row) => {
    const got = planeIrradianceWm2({
      ...PLANE,
      ...row,
      skylineElevationDeg: 0,
      skyViewShare: 0.75,
    });
    const want = row.directWm2 + 0.75 * row.skyWm2 + row.groundWm2;
    expect(Math.abs(got - want)).toBeLessThan(PLANE.toleranceWm2);
  });

  it('is the same with a share of 1 and with none given', () => {
    const args = { ...PLANE, ...PLANE.rows[0], skylineElevationDeg: 0 };
    expect(planeIrradianceWm2({ ...args, skyViewShare: 1 })).toBe(planeIrradianceWm2(args));
  });
});
