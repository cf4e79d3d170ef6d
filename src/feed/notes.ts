import { MS_PER_HOUR } from '../units/index.ts';
import type { Built, Findings } from './build-forecast.ts';
import type { ForecastKeys } from './forecast-keys.ts';
import type { TimeColumn } from './time-column.ts';
import { utcLabel } from './utc-label.ts';

export const NO_GUSTS_NOTE =
  'gusts not in this forecast: estimated as 1.6 x mean wind (common practice)';

const hoursWord = (n: number): string => (n === 1 ? '1 hour' : `${n} hours`);
const list = (items: readonly (string | number)[]): string =>
  items.length > 6
    ? `${items.slice(0, 6).join(', ')} and ${items.length - 6} more`
    : items.join(', ');

/** Everything about the forecasts read that a person should know, in plain words. */
export function notesOn(
  built: readonly Built[],
  keys: readonly ForecastKeys[],
  time: TimeColumn,
): string[] {
  const whole = built.flatMap((b) => (b.kind === 'whole' ? [b.findings] : []));
  return [
    ...time.notes,
    ...leftOut(built),
    ...absentNumbers(keys),
    ...gustNotes(whole),
    ...moistureNotes(whole),
    ...holeNotes(whole, time),
    ...endNotes(whole, time),
    ...mixNote(keys),
  ];
}

function leftOut(built: readonly Built[]): string[] {
  const byLack = new Map<string, string[]>();
  for (const b of built) {
    if (b.kind !== 'lacking') continue;
    const lacks = b.lacks.join(', ');
    byLack.set(lacks, [...(byLack.get(lacks) ?? []), b.name]);
  }
  return [...byLack].map(([lacks, names]) => `left out for want of ${lacks}: ${list(names)}`);
}

/** Providers number ensembles without gaps, so a hole in the numbers is a forecast that never came. */
function absentNumbers(keys: readonly ForecastKeys[]): string[] {
  const byModel = new Map<string | null, number[]>();
  for (const k of keys) byModel.set(k.model, [...(byModel.get(k.model) ?? []), k.number]);
  return [...byModel].flatMap(([model, numbers]) => {
    const there = new Set(numbers);
    const highest = Math.max(...numbers);
    const absent = Array.from({ length: highest + 1 }, (_, n) => n).filter((n) => !there.has(n));
    if (absent.length === 0) return [];
    const of = model === null ? '' : ` of ${model}`;
    return [`not in this answer: forecast ${list(absent)}${of}`];
  });
}

function gustNotes(whole: readonly Findings[]): string[] {
  const without = whole.filter((f) => f.noGusts).length;
  const raised = whole.reduce((sum, f) => sum + f.raisedGusts, 0);
  const notes: string[] = [];
  if (without > 0 && without === whole.length) notes.push(NO_GUSTS_NOTE);
  else if (without > 0) notes.push(`${NO_GUSTS_NOTE}, in ${without} of ${whole.length} forecasts`);
  if (raised > 0)
    notes.push(`gusts below the mean wind raised to it: ${hoursWord(raised)} over all forecasts`);
  return notes;
}

function moistureNotes(whole: readonly Findings[]): string[] {
  const capped = whole.reduce((sum, f) => sum + f.cappedHours, 0);
  const setAside = whole.filter((f) => f.dewSetAside).length;
  const notes: string[] = [];
  if (capped > 0)
    notes.push(
      `relative humidity over 100 % taken as 100 %: ${hoursWord(capped)} over all forecasts`,
    );
  if (setAside > 0) {
    notes.push(
      `dew point has gaps: relative humidity used instead in ${setAside} of ${whole.length} forecasts`,
    );
  }
  return notes;
}

function holeNotes(whole: readonly Findings[], time: TimeColumn): string[] {
  const sums = new Map<string, { hours: number; first: number; forecasts: number }>();
  for (const f of whole) {
    for (const [variable, hole] of f.holes) {
      const sum = sums.get(variable) ?? { hours: 0, first: hole.first, forecasts: 0 };
      sums.set(variable, {
        hours: sum.hours + hole.hours,
        first: Math.min(sum.first, hole.first),
        forecasts: sum.forecasts + 1,
      });
    }
  }
  return [...sums].map(([variable, s]) => {
    const from = `${utcLabel(time.startMs + s.first * MS_PER_HOUR)}Z`;
    return `${variable} is missing inside the forecast, first at ${from}: ${hoursWord(s.hours)} in ${s.forecasts} of ${whole.length} forecasts`;
  });
}

function endNotes(whole: readonly Findings[], time: TimeColumn): string[] {
  const ends = whole.map((f) => f.lastKnownHour);
  const [earliest, latest] = [Math.min(...ends), Math.max(...ends)];
  const at = (h: number) => `${utcLabel(time.startMs + h * MS_PER_HOUR)}Z`;
  const notes: string[] = [];
  if (latest < time.hours - 1)
    notes.push(`the forecast ends at ${at(latest)}; later hours are unknown`);
  if (earliest < latest) {
    const short = ends.filter((h) => h < latest).length;
    notes.push(
      `${short} of ${whole.length} forecasts end before the others, the first at ${at(earliest)}`,
    );
  }
  return notes;
}

function mixNote(keys: readonly ForecastKeys[]): string[] {
  const models = new Set(keys.flatMap((k) => (k.model === null ? [] : [k.model])));
  return models.size > 1
    ? [`forecasts of ${models.size} models, each counted alike: ${[...models].join(', ')}`]
    : [];
}
