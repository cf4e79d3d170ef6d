/**
 * Invented weather for the stand-in: smooth functions of hour, forecast number and place, rounded the
 * way the provider documents (one decimal; two for m/s and mm; none for per cent).
 */
export interface Spot {
  readonly atMs: number;
  readonly number: number;
  readonly latitude: number;
  /** Run the values come from; every run differs a little from the one before. */
  readonly runMs: number;
}

const HOUR_MS = 3_600_000;
const dayWave = (atMs: number): number => Math.sin(((atMs / HOUR_MS - 9) / 24) * 2 * Math.PI);
const rounded = (value: number, decimals: number): number => Number(value.toFixed(decimals));

/** Steps that do not repeat from day to day, so that a shifted series never looks like itself. */
const drift = (atMs: number): number => ((atMs / HOUR_MS) % 61) * 0.05;

const tempC = (s: Spot): number =>
  14 -
  (s.latitude - 50) * 0.5 +
  5 * dayWave(s.atMs) +
  drift(s.atMs) +
  (s.number % 7) * 0.2 +
  ((s.runMs / HOUR_MS) % 11) * 0.1;
const windMps = (s: Spot): number => 4 + 1.5 * dayWave(s.atMs) + (s.number % 5) * 0.3;

const FROM_MPS: Readonly<Record<string, readonly [number, string, number]>> = {
  kmh: [3.6, 'km/h', 1],
  ms: [1, 'm/s', 2],
  mph: [2.2369363, 'mp/h', 1],
  kn: [1.9438445, 'kn', 1],
};

export interface UnitWishes {
  readonly temperature: string;
  readonly wind: string;
  readonly rain: string;
}

/** Unit text and value of a variable, or null where the stand-in has no such variable. */
export function inventedValue(
  name: string,
  s: Spot,
  units: UnitWishes,
): { unit: string; value: number } | null {
  const celsius = (c: number) =>
    units.temperature === 'fahrenheit'
      ? { unit: '°F', value: rounded(c * 1.8 + 32, 1) }
      : { unit: '°C', value: rounded(c, 1) };
  const speed = (mps: number) => {
    const [factor, unit, decimals] = FROM_MPS[units.wind] ?? [3.6, 'km/h', 1];
    return { unit, value: rounded(mps * factor, decimals) };
  };
  const wet = (Math.floor(s.atMs / HOUR_MS) + s.number * 5) % 31 < 3 ? 0.6 : 0;
  switch (name) {
    case 'temperature_2m':
      return celsius(tempC(s));
    case 'dew_point_2m':
      return celsius(tempC(s) - 4);
    case 'relative_humidity_2m':
      return { unit: '%', value: Math.round(70 - 12 * dayWave(s.atMs)) };
    case 'wind_speed_10m':
      return speed(windMps(s));
    case 'wind_gusts_10m':
      return speed(windMps(s) * 1.7);
    case 'precipitation':
      return units.rain === 'inch'
        ? { unit: 'inch', value: rounded(wet / 25.4, 3) }
        : { unit: 'mm', value: wet };
    case 'precipitation_probability':
      return { unit: '%', value: wet > 0 ? 70 : 5 };
    case 'cloud_cover':
      return { unit: '%', value: 55 };
    case 'cape':
      return { unit: 'J/kg', value: Math.round(300 * Math.max(0, dayWave(s.atMs))) };
    case 'shortwave_radiation':
      return { unit: 'W/m²', value: rounded(Math.max(0, 600 * dayWave(s.atMs)), 1) };
    default:
      return null;
  }
}
