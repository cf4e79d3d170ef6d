import type { HourlyMember } from '../weather/index.ts';
import type { AnswerShape } from './answer-shape.ts';
import { type Column, type ColumnProblem, readColumn } from './columns.ts';
import { type ForecastKeys, forecastName } from './forecast-keys.ts';
import type { TimeColumn } from './time-column.ts';
import { REQUIRED, type Variable } from './variables.ts';

/** What was met while building one forecast; summed over all of them into plain notes. */
export interface Findings {
  readonly cappedHours: number;
  /** Hours in which the gust given was below the mean wind. */
  readonly raisedGusts: number;
  readonly noGusts: boolean;
  readonly dewSetAside: boolean;
  /** Last hour known in every required variable. */
  readonly lastKnownHour: number;
  /** Hours missing before that, by variable, with the first of them. */
  readonly holes: ReadonlyMap<Variable, { hours: number; first: number }>;
}

export type Built =
  | {
      readonly kind: 'whole';
      readonly member: HourlyMember;
      /** Its own chance of rain by the hour [%]; null = none given. */
      readonly rainChancePct: Float64Array | null;
      readonly findings: Findings;
    }
  | { readonly kind: 'wrong'; readonly problems: readonly ColumnProblem[] }
  /** A required variable is absent or all null: the forecast is left out, not filled in. */
  | { readonly kind: 'lacking'; readonly name: string; readonly lacks: readonly string[] };

/** Builds one forecast from its columns. */
export function buildForecast(
  answer: AnswerShape,
  forecast: ForecastKeys,
  time: TimeColumn,
): Built {
  const columns = new Map<Variable, Column>();
  const problems: ColumnProblem[] = [];
  for (const [variable, key] of forecast.keys) {
    const read = readColumn(answer, key, variable, time);
    if (read === 'no values') continue;
    if ('problem' in read) problems.push(read.problem);
    else columns.set(variable, read);
  }
  if (problems.length > 0) return { kind: 'wrong', problems };

  const dewColumn = columns.get('dew_point_2m');
  const humColumn = columns.get('relative_humidity_2m');
  const lacks: string[] = REQUIRED.filter((v) => !columns.has(v));
  if (!dewColumn && !humColumn) lacks.push('dew_point_2m and relative_humidity_2m');
  const column = (v: Variable) => columns.get(v)?.values;
  const airTempC = column('temperature_2m');
  const windMps = column('wind_speed_10m');
  const rainMm = column('precipitation');
  const solarWm2 = column('shortwave_radiation');
  const cloudPct = column('cloud_cover');
  if (lacks.length > 0 || !airTempC || !windMps || !rainMm || !solarWm2 || !cloudPct) {
    return { kind: 'lacking', name: forecastName(forecast), lacks };
  }

  // The fuller of the two moisture columns is used; at equal length dew point, which has more digits.
  const dewSetAside =
    dewColumn !== undefined && humColumn !== undefined && humColumn.known > dewColumn.known;
  const gusts = liftGusts(column('wind_gusts_10m'), windMps);
  const member: HourlyMember = {
    airTempC,
    dewPointC: dewSetAside ? null : (dewColumn?.values ?? null),
    relHumPct: humColumn?.values ?? null,
    windMps,
    gustMps: gusts?.gustMps ?? null,
    rainMm,
    solarWm2,
    cloudPct,
    capeJkg: column('cape') ?? null,
  };
  const moisture: Variable = member.dewPointC === null ? 'relative_humidity_2m' : 'dew_point_2m';
  return {
    kind: 'whole',
    member,
    rainChancePct: column('precipitation_probability') ?? null,
    findings: {
      cappedHours: humColumn?.capped ?? 0,
      raisedGusts: gusts?.raised ?? 0,
      noGusts: gusts === null,
      dewSetAside,
      ...gaps(columns, [...REQUIRED, moisture], time.hours),
    },
  };
}

/** The highest wind of an hour cannot be below its mean; models say so all the same. */
function liftGusts(given: Float64Array | undefined, windMps: Float64Array) {
  if (given === undefined) return null;
  let raised = 0;
  const gustMps = given.map((gust, h) => {
    const wind = windMps[h] ?? Number.NaN;
    if (!(gust < wind)) return gust;
    raised++;
    return wind;
  });
  return { gustMps, raised };
}

function gaps(columns: ReadonlyMap<Variable, Column>, needed: readonly Variable[], hours: number) {
  const missing = (v: Variable, h: number) => Number.isNaN(columns.get(v)?.values[h] ?? Number.NaN);
  let lastKnownHour = hours - 1;
  while (lastKnownHour >= 0 && needed.some((v) => missing(v, lastKnownHour))) lastKnownHour--;
  const holes = new Map<Variable, { hours: number; first: number }>();
  for (const v of needed) {
    for (let h = 0; h <= lastKnownHour; h++) {
      if (!missing(v, h)) continue;
      const hole = holes.get(v) ?? { hours: 0, first: h };
      holes.set(v, { ...hole, hours: hole.hours + 1 });
    }
  }
  return { lastKnownHour, holes };
}
