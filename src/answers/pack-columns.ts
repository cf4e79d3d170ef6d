import { hotMagnusWaterHPa } from '../physics/index.ts';
import {
  buildDoseTable,
  CLOCK_EVENTS,
  type ClockEvent,
  type FilmWeather,
  MOST_SENSITIVE,
  type PackColumn,
  type Product,
  UNITS_PER_MINUTE,
  wholeSteps,
} from '../products/index.ts';

/** Share of forecasts cut off at each end of a range, as in the clock itself. */
const TAIL = 0.1;

/** Steps of a forecast's columns, the first at `from`; NaN where they reach past its end. */
export function cut(column: Float32Array, film: FilmWeather, from: number, steps: number) {
  const out = new Float32Array(film.memberCount * steps).fill(Number.NaN);
  for (let m = 0; m < film.memberCount; m += 1) {
    const row = column.subarray(m * film.steps, (m + 1) * film.steps);
    out.set(row.subarray(from, from + steps), m * steps);
  }
  return out;
}

/** The same film over a part of its time, so that a day's clocks do not cost a fortnight's. */
export function cutFilm(film: FilmWeather, from: number, steps: number): FilmWeather {
  return {
    ...film,
    startMs: film.startMs + from * film.stepMs,
    steps,
    knownSteps: film.knownSteps.map((known) => Math.max(0, Math.min(steps, known - from))),
    surfaceTempC: cut(film.surfaceTempC, film, from, steps),
    dewPointC: cut(film.dewPointC, film, from, steps),
    windMps: cut(film.windMps, film, from, steps),
  };
}

/** Leading steps that at least half of the forecasts know. */
export function knownToHalf({
  knownSteps,
  memberCount,
  steps,
}: Pick<FilmWeather, 'knownSteps' | 'memberCount' | 'steps'>): number {
  const longestFirst = [...knownSteps].sort((a, b) => b - a);
  return Math.min(steps, longestFirst[Math.ceil(memberCount / 2) - 1]!);
}

/** Per step, the value that a share of the forecasts lie above; 0 where too few know. */
export function pointwise(
  film: FilmWeather,
  known: number,
  share: number,
  valueAt: (m: number, i: number) => number,
): Float64Array {
  const out = new Float64Array(film.steps);
  const values = new Float64Array(film.memberCount);
  for (let i = 0; i < known; i += 1) {
    let count = 0;
    for (let m = 0; m < film.memberCount; m += 1) {
      if (i < film.knownSteps[m]!) values[count++] = valueAt(m, i);
    }
    const rising = values.subarray(0, count).sort();
    out[i] = rising[count - 1 - Math.min(count - 1, Math.floor(share * count))]!;
  }
  return out;
}

/** Reference minutes gained in a step. */
function gainsOf(product: Product, film: FilmWeather) {
  const table = buildDoseTable(product, film);
  return (event: ClockEvent) => {
    const total = table.total(event);
    return {
      total,
      at: (m: number, i: number): number => {
        const base = m * (film.steps + 1) + i;
        return total[base + 1]! - total[base]!;
      },
    };
  };
}

/** The events a product's clock can be asked for in a pack. */
export function eventsOf(product: Product): ClockEvent[] {
  return CLOCK_EVENTS.filter((event) =>
    event === 'openUntil'
      ? product.openUntil !== null &&
        (product.openEndsBy === 'drying' || product.closeFrom !== null)
      : product[event] !== null,
  );
}

/**
 * A product's laws on one surface in whole numbers: slow, middle and fast rates step by step over the
 * forecasts, and how the middle answers to a kelvin more and to a per cent more humidity.
 * @param airTempC  on the film's own steps
 * @returns each law once, with the events that run by it
 */
export function packColumns(
  product: Product,
  film: FilmWeather,
  airTempC: Float32Array,
): readonly { readonly events: ClockEvent[]; readonly column: PackColumn }[] {
  const known = knownToHalf(film);
  const plain = gainsOf(product, film);
  const warmer = gainsOf(product, warmerBy1K(film));
  const damper = gainsOf(product, damperBy1Pct(film, airTempC));
  const laws = new Map<Float64Array, { readonly events: ClockEvent[]; column: PackColumn }>();
  for (const event of eventsOf(product)) {
    const gains = plain(event);
    const before = laws.get(gains.total);
    if (before !== undefined) {
      before.events.push(event);
      continue;
    }
    const at = (share: number, of: typeof gains.at) => pointwise(film, known, share, of);
    const middle = at(0.5, gains.at);
    const mid = units(middle);
    laws.set(gains.total, {
      events: [event],
      column: {
        slow: units(at(1 - TAIL, gains.at), { ceiling: mid }),
        mid,
        fast: units(at(TAIL, gains.at), { floor: mid }),
        perK: sensitivity(middle, at(0.5, warmer(event).at)),
        perPct: sensitivity(middle, at(0.5, damper(event).at)),
      },
    });
  }
  return [...laws.values()];
}

function units(minutes: Float64Array, bounds: Parameters<typeof wholeSteps>[1] = {}): Int32Array {
  return wholeSteps(
    minutes.map((each) => each * UNITS_PER_MINUTE),
    bounds,
  );
}

/** Thousandths of ln rate; 0 where the film stands still, which no reading is taken to change. */
function sensitivity(middle: Float64Array, changed: Float64Array): Int32Array {
  return Int32Array.from(middle, (gain, i) => {
    if (gain <= 0) return 0;
    const thousandths = Math.round(1000 * Math.log(changed[i]! / gain));
    // A film about to freeze or to meet the dew point would else answer without bound.
    return Math.max(-MOST_SENSITIVE, Math.min(MOST_SENSITIVE, thousandths));
  });
}

function warmerBy1K(film: FilmWeather): FilmWeather {
  return { ...film, surfaceTempC: film.surfaceTempC.map((tempC) => tempC + 1) };
}

/** One per cent of humidity more, as the air's own temperature has it, on the dew point [Magnus]. */
function damperBy1Pct(film: FilmWeather, airTempC: Float32Array): FilmWeather {
  return {
    ...film,
    dewPointC: film.dewPointC.map((dewC, at) => {
      const damper = hotMagnusWaterHPa(dewC) + 0.01 * hotMagnusWaterHPa(airTempC[at]!);
      const x = Math.log(damper / hotMagnusWaterHPa(0));
      return (243.12 * x) / (17.62 - x);
    }),
  };
}
