import type { CrewDays, Place, TravelRule } from './types.ts';

/** Mean radius of the earth (IUGG, 2a + b over 3) [km]. */
const EARTH_KM = 6371.0088;

/** Great-circle distance, haversine formula [km]. */
export function distanceKm(a: Place, b: Place): number {
  const rad = Math.PI / 180;
  const north = Math.sin(((b.latitudeDeg - a.latitudeDeg) * rad) / 2) ** 2;
  const east = Math.sin(((b.longitudeDeg - a.longitudeDeg) * rad) / 2) ** 2;
  const across = Math.cos(a.latitudeDeg * rad) * Math.cos(b.latitudeDeg * rad) * east;
  return 2 * EARTH_KM * Math.asin(Math.min(1, Math.sqrt(north + across)));
}

/** Minutes on the road one way. */
export function travelMinutes(from: Place, to: Place, rule: TravelRule): number {
  return rule.fixedMin + ((distanceKm(from, to) * rule.roadFactor) / rule.speedKmh) * 60;
}

/** A day's way there and back at what the crew costs a minute. */
export function travelPrice(crew: CrewDays, oneWayMin: number): number {
  return (2 * oneWayMin * crew.dayCost) / crew.shiftMin;
}
