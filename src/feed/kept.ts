import { spanText } from '../time/index.ts';
import { MS_PER_HOUR } from '../units/index.ts';
import type { HourlyWeather } from '../weather/index.ts';
import type { Ask } from './ask.ts';
import type { CacheEntry } from './cache.ts';
import { parseServiceJson } from './parse-json.ts';
import { checkPlace } from './place.ts';
import { readWeatherResponse } from './read-response.ts';
import type { LastGood } from './types.ts';

const FRESH_MS = MS_PER_HOUR;
/** Temperature is shifted with height, about 0.65 K per 100 m: more than this and it is asked anew. */
const SAME_HEIGHT_M = 30;

/** True when an entry answers this wish and is younger than an hour. */
export function isFresh(entry: CacheEntry, ask: Ask, nowMs: number): boolean {
  const ageMs = nowMs - entry.fetchedMs;
  const nullsAgree = (entry.elevationM === null) === (ask.elevationM === null);
  const heightM = Math.abs((entry.elevationM ?? 0) - (ask.elevationM ?? 0));
  // A fetch time in the future means the clock was set back: such an entry is never taken as new.
  return (
    ageMs >= 0 &&
    ageMs < FRESH_MS &&
    entry.days >= ask.days &&
    entry.pastDays >= ask.pastDays &&
    nullsAgree &&
    heightM <= SAME_HEIGHT_M
  );
}

/** The weather of a kept entry, or null where its body can no longer be read. */
export function readKept(entry: CacheEntry, ask: Ask): HourlyWeather | null {
  const parsed = parseServiceJson(entry.body);
  if (!parsed.ok) return null;
  const { fetchedMs, issuedMs, model } = entry;
  const read = readWeatherResponse(parsed.value, { kind: 'live', fetchedMs, issuedMs, model });
  if (!read.ok || checkPlace(read.weather, ask.place) !== null) return null;
  return withNotes(read.weather, entry.notes);
}

/** A kept entry as the last forecast at hand: the label goes into the notes too, so it cannot get lost. */
export function lastGoodOf(entry: CacheEntry | null, ask: Ask, nowMs: number): LastGood | null {
  const weather = entry === null ? null : readKept(entry, ask);
  if (entry === null || weather === null) return null;
  const ageMs = nowMs - entry.fetchedMs;
  const label =
    ageMs >= 0
      ? `old forecast: fetched ${spanText(ageMs)} ago, no newer one could be had`
      : 'old forecast: its fetch time is later than the clock of this computer, no newer one could be had';
  return { weather: withNotes(weather, [label]), ageMs, label };
}

export function withNotes(weather: HourlyWeather, notes: readonly string[]): HourlyWeather {
  if (notes.length === 0) return weather;
  return { ...weather, source: { ...weather.source, notes: [...notes, ...weather.source.notes] } };
}
