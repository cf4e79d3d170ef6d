import type { WeatherLabel } from '../../contract/index.ts';
import { clockText, shortDayText, spanText } from '../../time/index.ts';

/** Where the weather came from, how old it is, and whom to credit: printed with every answer made from it. */
export function weatherLines(
  weather: WeatherLabel,
  nowMs: number,
  zone: string,
  oldLabel: string | null,
): string[] {
  const what = weather.invented
    ? 'invented demo weather'
    : weather.kind === 'file'
      ? 'saved forecast'
      : 'live forecast';
  const model = weather.model === null ? '' : ` (${weather.model})`;
  const count = weather.count === 1 ? 'one forecast, no spread' : `${weather.count} forecasts`;
  const lines = [`Weather: ${what}${model}, ${age(weather, nowMs, zone)}; ${count}.`];
  if (oldLabel !== null) lines.push(oldLabel);
  lines.push(...weather.notes.map((note) => `  ${note}`));
  if (weather.attribution !== null) lines.push(weather.attribution);
  return lines;
}

function age(weather: WeatherLabel, nowMs: number, zone: string): string {
  const when = (ms: number) =>
    `${shortDayText(ms, zone)} ${clockText(ms, zone)}, ${spanText(nowMs - ms)} old`;
  if (weather.issuedMs !== null) return `issued ${when(weather.issuedMs)}`;
  if (weather.fetchedMs !== null) return `fetched ${when(weather.fetchedMs)}`;
  return 'issue time not stated in the file';
}
