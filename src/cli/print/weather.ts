import type { WeatherLabel } from '../../contract/index.ts';
import { forecastsWords } from '../../planner/index.ts';
import { clockText, shortDayText, spanText } from '../../time/index.ts';
import { wrap } from './table.ts';

/**
 * Where the weather came from, how old it is, and whom to credit: printed with every answer made
 * from it. An old forecast says so in its notes.
 */
export function weatherLines(weather: WeatherLabel, nowMs: number, zone: string): string[] {
  const what = weather.invented
    ? 'invented demo weather'
    : weather.kind === 'file'
      ? 'saved forecast'
      : 'live forecast';
  const model = weather.model === null ? '' : ` (${weather.model})`;
  const count =
    weather.count === 1
      ? 'one forecast, no spread'
      : forecastsWords(weather.count, weather.made === true);
  return [
    ...wrap(`Weather: ${what}${model}, ${age(weather, nowMs, zone)}; ${count}.`, ''),
    ...weather.notes.flatMap((note) => wrap(note, '  ')),
    ...(weather.attribution === null ? [] : wrap(weather.attribution, '')),
  ];
}

function age(weather: WeatherLabel, nowMs: number, zone: string): string {
  const when = (ms: number) => {
    const old = nowMs < ms ? 'later than the time planned for' : `${spanText(nowMs - ms)} old`;
    return `${shortDayText(ms, zone)} ${clockText(ms, zone)}, ${old}`;
  };
  if (weather.issuedMs !== null) return `issued ${when(weather.issuedMs)}`;
  if (weather.fetchedMs !== null) return `fetched ${when(weather.fetchedMs)}`;
  return 'issue time not stated in the file';
}
