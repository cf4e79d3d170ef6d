import type { Draft, Say } from './parse-draft.ts';
import { range } from './parse-times.ts';
import { brief } from './printed-units.ts';
import { readTimesTable } from './times-table.ts';
import type { Mechanism, TimesTable } from './types.ts';

/** A table's times are printed rounded, and so are those given beside it. */
const ROUNDING = 0.05;

/** Tables that contradict themselves, the mechanism, the times given beside them, or each other. */
export function checkTables(draft: Draft, say: Say): void {
  const { tables = [], mechanism, reference } = draft;
  const sound = tables.filter((table, n) => {
    const path = `tables.${n}`;
    const first = tables.findIndex(({ event }) => event === table.event);
    if (first < n) {
      say(
        `${path}.event`,
        `${path}.event is '${table.event}', but tables.${first} has that time already; each may be given once.`,
      );
    }
    if (mechanism === 'none') {
      say(
        `${path}.event`,
        `${path} gives times for '${table.event}', but mechanism is 'none': a material that neither dries nor cures has no times.`,
      );
    }
    if (!inShape(table, path, say)) return false;
    checkTrend(table, path, mechanism, say);
    checkBeside(table, path, draft, say);
    return true;
  });
  const touchDry = sound.find(({ event }) => event === 'touchDry');
  const openUntil = sound.find(({ event }) => event === 'openUntil');
  if (touchDry && openUntil && reference) checkOrder(touchDry, openUntil, reference.relHumPct, say);
}

function inShape(table: TimesTable, path: string, say: Say): boolean {
  const { tempC, relHumPct, minutes } = table;
  let sound = true;
  const fault = (field: string, message: string): void => {
    sound = false;
    say(`${path}.${field}`, `${path}.${field} ${message}`);
  };
  for (const [field, axis] of [
    ['tempC', tempC],
    ['relHumPct', relHumPct],
  ] as const) {
    const at = axis.findIndex((value, n) => n > 0 && value <= axis[n - 1]!);
    if (at > 0) {
      fault(
        field,
        `does not rise: ${brief(axis[at]!)} comes after ${brief(axis[at - 1]!)}; write it from low to high, each once.`,
      );
    }
  }
  const columns = Math.max(1, relHumPct.length);
  if (minutes.length !== tempC.length) {
    fault(
      'minutes',
      `has ${minutes.length} rows, but there are ${tempC.length} temperatures; each has one row.`,
    );
  }
  minutes.forEach((row, r) => {
    if (row.length === columns) return;
    fault(
      `minutes.${r}`,
      `has ${row.length} times, but ${relHumPct.length === 0 ? 'no humidity is named, so it must have 1' : `there are ${columns} humidities`}.`,
    );
  });
  return sound;
}

/** Warmer is never slower; water never dries sooner in damper air, and moisture never cures later in it. */
function checkTrend(
  { event, tempC, relHumPct, minutes }: TimesTable,
  path: string,
  mechanism: Mechanism | undefined,
  say: Say,
): void {
  const humidity = (c: number) => (relHumPct.length === 0 ? '' : ` and ${brief(relHumPct[c]!)} %`);
  const cell = (r: number, c: number) =>
    `${event} at ${brief(tempC[r]!)} °C${humidity(c)} (${brief(minutes[r]![c]!)} min)`;
  for (const [r, row] of minutes.entries()) {
    for (const [c, time] of row.entries()) {
      const colder = minutes[r - 1]?.[c];
      if (colder !== undefined && time > colder) {
        say(
          `${path}.minutes.${r}.${c}`,
          `${path}: ${cell(r, c)} is longer than ${cell(r - 1, c)}: it cannot take longer where it is warmer.`,
        );
      }
      const drier = row[c - 1];
      if (drier === undefined) continue;
      if (mechanism === 'water' && time < drier) {
        say(
          `${path}.minutes.${r}.${c}`,
          `${path}: ${cell(r, c)} is shorter than ${cell(r, c - 1)}: water does not leave sooner where the air is damper.`,
        );
      }
      if (mechanism === 'moisture-cure' && time > drier) {
        say(
          `${path}.minutes.${r}.${c}`,
          `${path}: ${cell(r, c)} is longer than ${cell(r, c - 1)}: what cures by moisture does not take longer where the air is damper.`,
        );
      }
    }
  }
}

/** A table stands beside the time at reference conditions, which carries the scatter. */
function checkBeside(table: TimesTable, path: string, draft: Draft, say: Say): void {
  const { event } = table;
  const time = draft[event];
  if (time === null && draft.mechanism !== 'none') {
    say(
      event,
      `${event} is null, but ${path} gives its times; give the time at reference conditions too, with its low and high.`,
    );
  }
  const { reference } = draft;
  if (!time || reference === undefined) return;
  const at = readTimesTable(table, reference.relHumPct)(reference.airTempC, reference.relHumPct);
  if (!at.inside) return;
  const { lowMin, highMin } = time;
  if (at.minutes >= lowMin * (1 - ROUNDING) && at.minutes <= highMin * (1 + ROUNDING)) return;
  say(
    event,
    `${event} is ${range(time)}, but ${path} gives ${brief(at.minutes)} min at the reference conditions (${brief(reference.airTempC)} °C and ${brief(reference.relHumPct)} %): both are for the same weather and must agree.`,
  );
}

/** At every point of either table that both know. */
function checkOrder(touchDry: TimesTable, openUntil: TimesTable, relHumPct: number, say: Say) {
  const humidities = (table: TimesTable) =>
    table.relHumPct.length === 0 ? [relHumPct] : table.relHumPct;
  const dry = readTimesTable(touchDry, relHumPct);
  const open = readTimesTable(openUntil, relHumPct);
  for (const table of [touchDry, openUntil]) {
    for (const tempC of table.tempC) {
      for (const humidity of humidities(table)) {
        const ready = dry(tempC, humidity);
        const past = open(tempC, humidity);
        if (!ready.inside || !past.inside || past.minutes > ready.minutes) continue;
        say(
          'tables',
          `tables: at ${brief(tempC)} °C and ${brief(humidity)} % openUntil (${brief(past.minutes)} min) does not end after touchDry (${brief(ready.minutes)} min): the film would be past use before it is ready.`,
        );
        return;
      }
    }
  }
}
