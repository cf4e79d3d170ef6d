import { MS_PER_HOUR } from '../units/index.ts';
import type { HourlyMember, HourlyWeather, QuarterRain } from '../weather/index.ts';

const FORMAT = 'layfair-hours-1';
const ALWAYS = ['airTempC', 'windMps', 'rainMm', 'solarWm2', 'cloudPct'] as const;
const SOMETIMES = ['dewPointC', 'relHumPct', 'gustMps'] as const;

/**
 * The hours of a forecast from before one instant to after another, as far as there are any.
 * @returns null where it does not reach over both
 */
export function hoursBetween(
  hourly: HourlyWeather,
  fromMs: number,
  toMs: number,
  margin: { readonly beforeMs: number; readonly afterMs: number },
): HourlyWeather | null {
  const endMs = hourly.startMs + (hourly.hours - 1) * MS_PER_HOUR;
  if (fromMs < hourly.startMs || toMs > endMs) return null;
  const at = (ms: number): number => (ms - hourly.startMs) / MS_PER_HOUR;
  const first = Math.max(0, Math.floor(at(fromMs - margin.beforeMs)));
  const last = Math.min(hourly.hours - 1, Math.ceil(at(toMs + margin.afterMs)));
  const cut = (column: Float64Array): Float64Array => column.slice(first, last + 1);
  return {
    ...hourly,
    startMs: hourly.startMs + first * MS_PER_HOUR,
    hours: last - first + 1,
    members: hourly.members.map((member) => mapColumns(member, cut)),
  };
}

type Kept<T> = Omit<QuarterRain, 'rainMm' | 'lightningJkg'> & {
  readonly rainMm: T;
  readonly lightningJkg: T | null;
};

/** Rain by the quarter hour, where there is any: short enough to be kept whole. */
function mapQuarters<From, To>(
  quarters: Kept<From> | undefined,
  map: (column: From) => To,
): { quarterRain?: Kept<To> } {
  if (quarters === undefined) return {};
  const { rainMm, lightningJkg, ...rest } = quarters;
  const lightning = lightningJkg === null ? null : map(lightningJkg);
  return { quarterRain: { ...rest, rainMm: map(rainMm), lightningJkg: lightning } };
}

const toList = (column: Float64Array): (number | null)[] =>
  Array.from(column, (x) => (Number.isNaN(x) ? null : x));
const fromList = (column: readonly (number | null)[]): Float64Array =>
  Float64Array.from(column, (x) => x ?? Number.NaN);

/** As text, to be kept; missing values are null. */
export function weatherToText(hourly: HourlyWeather): string {
  const members = hourly.members.map((member) => mapColumns(member, toList));
  const quarters = mapQuarters(hourly.quarterRain, toList);
  return JSON.stringify({ format: FORMAT, ...hourly, members, ...quarters });
}

/** @throws Error where this is no text of `weatherToText`: it comes from our own store, checked by its hash */
export function weatherFromText(text: string): HourlyWeather {
  const kept = JSON.parse(text) as HourlyWeather & { readonly format?: unknown };
  if (kept.format !== FORMAT) {
    throw new Error(`kept weather has the format '${String(kept.format)}', not '${FORMAT}'`);
  }
  const { format: _format, ...hourly } = kept;
  const members = hourly.members.map((member) =>
    mapColumns(member as unknown as Columns<readonly (number | null)[]>, (column) => {
      if (!Array.isArray(column) || column.length !== hourly.hours) {
        throw new Error(`a column of kept weather is not ${hourly.hours} hours long`);
      }
      return fromList(column);
    }),
  );
  const kept15 = hourly.quarterRain as unknown as Kept<readonly (number | null)[]> | undefined;
  return { ...hourly, members, ...mapQuarters(kept15, fromList) };
}

type Columns<T> = {
  readonly [K in keyof HourlyMember]: T | (null extends HourlyMember[K] ? null : never);
};

function mapColumns<From, To>(member: Columns<From>, map: (column: From) => To): Columns<To> {
  const out: Record<string, To | null> = {};
  for (const name of ALWAYS) out[name] = map(member[name]);
  for (const name of SOMETIMES) {
    const column = member[name];
    out[name] = column === null ? null : map(column as From);
  }
  return out as unknown as Columns<To>;
}
