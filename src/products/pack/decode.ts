import { CLOCK_EVENTS, CLOSINGS } from '../types.ts';
import { readClocks, readColumns, readProducts } from './decode-parts.ts';
import { Fault, Reader } from './reader.ts';
import { checkOf } from './text.ts';
import {
  type ClockPack,
  PACK_FORMAT,
  type PackReading,
  type PackSurface,
  type PackWeather,
} from './types.ts';

export type PackRead =
  | { readonly ok: true; readonly pack: ClockPack }
  | { readonly ok: false; readonly message: string };

const SURFACES = ['deck', 'sheet', 'folded-sheet', 'upstand'] as const;
/** Epoch ms in the years a plan can lie in, 1970 to 2100. */
const LAST_MS = 4_102_444_800_000;
/** Two days of steps: no pack looks further. */
const MOST_STEPS = 576;

/**
 * Reads a pack that was fetched or kept, and checks all of it: a cut, changed, older or foreign one
 * gets a sentence and no clock.
 * @param value  the JSON value, or its text
 */
export function decodePack(value: unknown): PackRead {
  try {
    return { ok: true, pack: read(parsed(value)) };
  } catch (error) {
    if (error instanceof Fault) return { ok: false, message: error.message };
    throw error;
  }
}

function parsed(value: unknown): unknown {
  if (typeof value !== 'string') return value;
  try {
    return JSON.parse(value);
  } catch {
    throw new Fault('The clock pack is cut short or is none: it is no valid JSON. Fetch it again.');
  }
}

function read(value: unknown): ClockPack {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new Fault('This is no clock pack.');
  }
  const { format, check, body } = value as Record<string, unknown>;
  if (format !== PACK_FORMAT) {
    const seen = typeof format === 'string' ? `'${format.slice(0, 40)}'` : 'not given';
    throw new Fault(`The format is ${seen}; this program reads '${PACK_FORMAT}'. Fetch it again.`);
  }
  if (typeof body !== 'object' || body === null || check !== checkOf(textOf(body))) {
    throw new Fault('The clock pack is damaged: its check does not fit. Fetch it again.');
  }
  return readBody(new Reader(body, ''));
}

/** A body nested beyond reason cannot be written out: it is none of ours. */
function textOf(body: object): string {
  try {
    return JSON.stringify(body);
  } catch {
    throw new Fault('This is no clock pack.');
  }
}

function readBody(body: Reader): ClockPack {
  const steps = body.whole('steps', 1, MOST_STEPS);
  const surfaces = new Map<PackSurface, Int32Array>();
  for (const each of body.list('surfaces', 8)) {
    surfaces.set(each.oneOf('kind', SURFACES), each.column('temps', 2, steps, -1000, 2000));
  }
  const products = readProducts(body.list('products', 60), CLOSINGS);
  const columns = readColumns(body.list('columns', 600), steps);
  const clocks = readClocks(body.list('clocks', 400), {
    steps,
    events: CLOCK_EVENTS,
    surfaces: [...surfaces.keys()],
    productIds: products.map(({ id }) => id),
    columnCount: columns.length,
  });
  return {
    jobId: body.text('jobId', 60),
    date: body.text('date', 10),
    timeZone: body.text('timeZone', 60),
    builtMs: body.whole('builtMs', 0, LAST_MS),
    startMs: body.whole('startMs', 0, LAST_MS),
    stepMs: body.whole('stepMs', 60_000, 3_600_000),
    steps,
    knownSteps: body.whole('knownSteps', 0, steps),
    readingLastsMs: body.whole('readingLastsMs', 60_000, 86_400_000),
    weather: readWeather(body.inner('weather')),
    readings: body.list('readings', 500).map(readReading),
    relHum: body.column('relHum', 1, steps, 0, 1100),
    surfaces,
    products,
    columns,
    clocks,
  };
}

function readWeather(weather: Reader): PackWeather {
  return {
    kind: weather.oneOf('kind', ['live', 'file', 'demo']),
    model: weather.orNull('model', () => weather.text('model', 120)),
    issuedMs: weather.orNull('issuedMs', () => weather.whole('issuedMs', 0, LAST_MS)),
    fetchedMs: weather.orNull('fetchedMs', () => weather.whole('fetchedMs', 0, LAST_MS)),
    invented: weather.bool('invented'),
    count: weather.whole('count', 1, 1000),
  };
}

function readReading(reading: Reader): PackReading {
  return {
    surface: reading.oneOf('surface', SURFACES),
    atMs: reading.whole('atMs', 0, LAST_MS),
    what: reading.oneOf('what', ['surface-temp', 'rel-hum']),
    value: reading.number('value', -100, 150),
  };
}
