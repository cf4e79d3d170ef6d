import { degToRad } from '../units/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import type { Place } from './types.ts';

/** Mean earth radius R1 [km] (IUGG). */
const EARTH_RADIUS_KM = 6371.0088;
/** Farthest a forecast's grid cell may lie from the site: wider than the coarsest grid offered. */
export const MAX_CELL_DISTANCE_KM = 60;

/** Great-circle distance on the mean sphere; within 0.6 % of the ellipsoid. */
export function distanceKm(a: Place, b: Place): number {
  const lat1 = degToRad(a.latitudeDeg);
  const lat2 = degToRad(b.latitudeDeg);
  const dLat = lat2 - lat1;
  const dLon = degToRad(b.longitudeDeg - a.longitudeDeg);
  const h = Math.sin(dLat / 2) ** 2 + Math.cos(lat1) * Math.cos(lat2) * Math.sin(dLon / 2) ** 2;
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(h)));
}

/** Null where the weather belongs to the site, else the sentence why it does not. */
export function checkPlace(weather: HourlyWeather, site: Place): string | null {
  const km = distanceKm(weather, site);
  if (km <= MAX_CELL_DISTANCE_KM) return null;
  const at = (p: Place) =>
    `latitude ${p.latitudeDeg.toFixed(2)}, longitude ${p.longitudeDeg.toFixed(2)}`;
  return (
    `This forecast is for ${at(weather)}, ${Math.round(km)} km from the site at ${at(site)}; ` +
    `Layfair accepts up to ${MAX_CELL_DISTANCE_KM} km.`
  );
}
