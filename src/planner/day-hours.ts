import { MS_PER_HOUR } from '../units/index.ts';
import { FILM_VISIBLE_MM, stepAt } from '../weather/index.ts';
import type { Prepared } from './prepare.ts';
import { quantile } from './quantile.ts';

export interface Band {
  readonly low: (number | null)[];
  readonly mid: (number | null)[];
  readonly high: (number | null)[];
}

/** Hour by hour over all forecasts; null where none is known. */
export interface DayHours {
  readonly startMs: number[];
  readonly rainChancePct: (number | null)[];
  readonly rainMmMean: (number | null)[];
  readonly surfaceTempC: Band;
  readonly dewMarginK: Band;
  readonly airTempC: (number | null)[];
  readonly windMps: (number | null)[];
  readonly gustMps: (number | null)[];
  readonly deckWetPct: (number | null)[];
}

/** The weather that decides a day, [fromMs, toMs) by whole hours, on the deck. */
export function dayHours(prepared: Prepared, fromMs: number, toMs: number): DayHours {
  const { grid, limits } = prepared;
  const deck = prepared.surface('deck');
  const band = (): Band => ({ low: [], mid: [], high: [] });
  const hours = {
    startMs: [] as number[],
    rainChancePct: [] as (number | null)[],
    rainMmMean: [] as (number | null)[],
    surfaceTempC: band(),
    dewMarginK: band(),
    airTempC: [] as (number | null)[],
    windMps: [] as (number | null)[],
    gustMps: [] as (number | null)[],
    deckWetPct: [] as (number | null)[],
  };
  for (let ms = fromMs; ms < toMs; ms += MS_PER_HOUR) {
    const first = stepAt(grid, ms);
    const last = stepAt(grid, ms + MS_PER_HOUR);
    const values = {
      rain: [],
      temp: [],
      margin: [],
      air: [],
      wind: [],
      gust: [],
      wet: [],
    } as Record<'rain' | 'temp' | 'margin' | 'air' | 'wind' | 'gust' | 'wet', number[]>;
    for (let m = 0; m < grid.memberCount; m += 1) {
      if (first < 0 || last > grid.knownSteps[m]!) continue;
      const offset = m * grid.steps;
      let rainMm = 0;
      let gustMps = 0;
      for (let i = first; i < last; i += 1) {
        rainMm += grid.rainMm[offset + i]!;
        gustMps = Math.max(gustMps, grid.gustMps[offset + i]!);
      }
      const middle = offset + Math.floor((first + last) / 2);
      values.rain.push(rainMm);
      values.gust.push(gustMps);
      values.temp.push(deck.surfaceTempC[middle]!);
      values.margin.push(deck.dewMarginK[middle]!);
      values.air.push(grid.airTempC[middle]!);
      values.wind.push(grid.windMps[middle]!);
      values.wet.push(deck.filmMm[middle]! > FILM_VISIBLE_MM ? 1 : 0);
    }
    hours.startMs.push(ms);
    hours.rainChancePct.push(sharePct(values.rain, (mm) => mm >= limits.rainMmPerHour));
    hours.rainMmMean.push(mean(values.rain));
    pushBand(hours.surfaceTempC, values.temp);
    pushBand(hours.dewMarginK, values.margin);
    hours.airTempC.push(quantile(values.air, 0.5));
    hours.windMps.push(quantile(values.wind, 0.5));
    hours.gustMps.push(quantile(values.gust, 0.9));
    hours.deckWetPct.push(sharePct(values.wet, (wet) => wet === 1));
  }
  return hours;
}

function pushBand(into: Band, values: readonly number[]): void {
  into.low.push(quantile(values, 0.1));
  into.mid.push(quantile(values, 0.5));
  into.high.push(quantile(values, 0.9));
}

function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

function sharePct(values: readonly number[], holds: (value: number) => boolean): number | null {
  return values.length === 0 ? null : (100 * values.filter(holds).length) / values.length;
}
