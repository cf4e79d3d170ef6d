import { degToRad } from '../units/index.ts';
import type { Place } from './types.ts';

/**
 * A model whose rain by the quarter hour the provider passes on as the weather centre computes it.
 * Asked for by its own id, it is never filled in from hours: what it does not reach is null or refused.
 */
export interface QuarterModel {
  readonly id: string;
  /** What people call it. */
  readonly name: string;
  /** How often it runs [h]. */
  readonly everyHours: number;
  readonly hasLightning: boolean;
  covers(place: Place): boolean;
}

/**
 * Two models, on two continents. Météo-France's has a quarter-hour run too, but since September 2026 the
 * provider works its quarters out of running hours (github.com/open-meteo/open-meteo, pull 2120), and
 * the British one is hourly, so that sites which only these cover have none.
 */
export const QUARTER_MODELS: readonly QuarterModel[] = [
  {
    id: 'dwd_icon_d2_15min',
    name: 'ICON-D2',
    everyHours: 3,
    hasLightning: true,
    // The provider's grid of it, 1215 x 746 cells of 0.02 degrees; towards its corners values are null.
    covers: ({ latitudeDeg, longitudeDeg }) =>
      latitudeDeg >= 43.18 &&
      latitudeDeg <= 58.08 &&
      longitudeDeg >= -3.94 &&
      longitudeDeg <= 20.34,
  },
  {
    id: 'ncep_hrrr_conus_15min',
    name: 'HRRR',
    everyHours: 1,
    hasLightning: false,
    covers: (place) => {
      const { xKm, yKm } = onHrrrGrid(place);
      return xKm >= 0 && xKm <= HRRR.widthKm && yKm >= 0 && yKm <= HRRR.heightKm;
    },
  },
];

export function quarterModelFor(place: Place): QuarterModel | null {
  return QUARTER_MODELS.find((model) => model.covers(place)) ?? null;
}

/** The grid of HRRR: a Lambert cone that touches the sphere at one parallel, 1799 x 1059 cells of 3 km. */
const HRRR = {
  radiusKm: 6371.229,
  parallelDeg: 38.5,
  meridianDeg: -97.5,
  corner: { latitudeDeg: 21.138, longitudeDeg: -122.72 },
  widthKm: 1798 * 3,
  heightKm: 1058 * 3,
} as const;

/** Distances from the south-west corner along the grid (Snyder 1987, eq. 15-1 to 15-5, spherical). */
export function onHrrrGrid(place: Place): { readonly xKm: number; readonly yKm: number } {
  const at = onCone(place);
  const corner = onCone(HRRR.corner);
  return { xKm: at.xKm - corner.xKm, yKm: at.yKm - corner.yKm };
}

function onCone({ latitudeDeg, longitudeDeg }: Place): { xKm: number; yKm: number } {
  const n = Math.sin(degToRad(HRRR.parallelDeg));
  const half = (deg: number) => Math.tan(Math.PI / 4 + degToRad(deg) / 2);
  const rhoKm =
    (HRRR.radiusKm / Math.tan(degToRad(HRRR.parallelDeg))) *
    (half(HRRR.parallelDeg) / half(latitudeDeg)) ** n;
  // The short way round the globe from the middle meridian.
  const turns = ((longitudeDeg - HRRR.meridianDeg + 540) % 360) - 180;
  const theta = n * degToRad(turns);
  return { xKm: rhoKm * Math.sin(theta), yKm: -rhoKm * Math.cos(theta) };
}
