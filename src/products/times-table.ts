import type { TimesTable } from './types.ts';

/** Where weather stands to a sheet's table. */
export interface TablePoint {
  /** The table's time at the weather itself or, outside its range, at its nearest point [min]. */
  readonly minutes: number;
  /** That point. */
  readonly tempC: number;
  readonly relHumPct: number;
  /** True where temperature and humidity lie inside the table's range, its edges included. */
  readonly inside: boolean;
}

/**
 * Reads a sheet's table. Between its points the logarithm of the time runs straight in temperature
 * and in humidity, which keeps every printed point, never leaves the range of its four neighbours,
 * and follows the doubling of speed per so many degrees that most such tables show.
 * @param atRelHumPct  humidity that a table without humidities is taken to mean [%]
 * @returns a function of temperature [°C] and relative humidity [%]
 * @throws RangeError on a table that is not rising, not rectangular or not above 0, NaN included
 */
export function readTimesTable(
  table: TimesTable,
  atRelHumPct: number,
): (tempC: number, relHumPct: number) => TablePoint {
  const relHumsPct = table.relHumPct.length === 0 ? [atRelHumPct] : table.relHumPct;
  const { tempC: tempsC, minutes } = table;
  checkTable(table, tempsC, relHumsPct);
  return (tempC, relHumPct) => {
    const t = placeOn(tempsC, tempC);
    const h = placeOn(relHumsPct, relHumPct);
    const colder = minutes[t.index]!;
    const warmer = minutes[Math.min(t.index + 1, tempsC.length - 1)]!;
    const damper = Math.min(h.index + 1, relHumsPct.length - 1);
    return {
      minutes: between(
        between(colder[h.index]!, colder[damper]!, h.share),
        between(warmer[h.index]!, warmer[damper]!, h.share),
        t.share,
      ),
      tempC: t.value,
      relHumPct: h.value,
      inside: t.inside && h.inside,
    };
  };
}

/** Straight in the logarithm; both ends come out to the last bit. */
function between(a: number, b: number, share: number): number {
  if (share === 0 || a === b) return a;
  return share === 1 ? b : a * (b / a) ** share;
}

function placeOn(axis: readonly number[], value: number) {
  const last = axis.length - 1;
  const held = Math.min(axis[last]!, Math.max(axis[0]!, value));
  let index = 0;
  while (index < last - 1 && axis[index + 1]! <= held) index += 1;
  const low = axis[index]!;
  const high = axis[Math.min(index + 1, last)]!;
  return {
    index,
    share: high > low ? (held - low) / (high - low) : 0,
    value: held,
    inside: held === value,
  };
}

function checkTable(
  table: TimesTable,
  tempsC: readonly number[],
  relHumsPct: readonly number[],
): void {
  const fault = (what: string): never => {
    throw new RangeError(`the table for ${table.event} ${what}`);
  };
  if (tempsC.length === 0 || !rises(tempsC)) fault('has temperatures that do not rise');
  if (!rises(relHumsPct)) fault('has humidities that do not rise');
  const square = table.minutes.every((row) => row.length === relHumsPct.length);
  if (table.minutes.length !== tempsC.length || !square)
    fault('does not have one time for each temperature and humidity');
  for (const time of table.minutes.flat()) {
    if (!(time > 0 && Number.isFinite(time))) fault(`has ${time} min; a time is above 0`);
  }
}

const rises = (axis: readonly number[]): boolean =>
  axis.every((value, n) => Number.isFinite(value) && (n === 0 || value > axis[n - 1]!));
