import { LIMIT_QUANTITY } from './number-words.ts';
import { type CoverageFigure, settleCoverage } from './own-product-coverage.ts';
import {
  beside,
  type FigureReader,
  figureReader,
  inUnit,
  type SettledPair,
} from './own-product-figures.ts';
import type { OwnProduct } from './own-product-schema.ts';
import { asPrinted } from './parse-agreement.ts';
import type { ProductIssue } from './parse-issues.ts';
import { TIMES, type TimeField } from './parse-times.ts';
import { standsFor } from './printed-units.ts';
import {
  type CoverageUnit,
  LIMIT_KEYS,
  type ProductLimits,
  type RefTime,
  type SheetFacts,
  type TimesTable,
} from './types.ts';

type Reference = 'airTempC' | 'relHumPct' | 'windMps';
type Own<K extends keyof OwnProduct> = NonNullable<OwnProduct[K]>;

/** What the firm's sheet says, in our units; only what it names. */
export interface SheetFigures {
  readonly times: Partial<Record<TimeField, RefTime>>;
  readonly limits: ProductLimits;
  readonly tables: readonly TimesTable[];
  readonly reference: Partial<Record<Reference, number>>;
  readonly materialTempC: SettledPair | null;
  readonly coverage: CoverageFigure | null;
  readonly sheet: Partial<SheetFacts>;
}

/**
 * Turns every printed figure of an own product into our unit, exactly. A figure given both ways must
 * say the same both times; the exact one is then used.
 * @param classUnit  what the class's coverage is measured by, for a coverage without a unit
 * @returns the figures that could be read, and a sentence for each that could not
 */
export function settle(
  own: OwnProduct,
  classUnit: CoverageUnit,
): { readonly figures: SheetFigures; readonly issues: readonly ProductIssue[] } {
  const reader = figureReader();
  const times: Partial<Record<TimeField, RefTime>> = {};
  for (const key of TIMES) {
    const time = own[key] && settleTime(key, own[key], reader);
    if (time) times[key] = time;
  }
  const limits: { -readonly [K in keyof ProductLimits]: ProductLimits[K] } = {};
  for (const key of LIMIT_KEYS) {
    const given = own.limits?.[key];
    const limit = given && reader.one(`limits.${key}`, LIMIT_QUANTITY[key], given);
    if (limit) limits[key] = limit;
  }
  const tables = (own.tables ?? []).flatMap((table, n) => {
    const settled = settleTable(`tables.${n}`, table, reader);
    return settled === null ? [] : [settled];
  });
  const { materialTempC, coverage } = own;
  const figures: SheetFigures = {
    times,
    limits,
    tables,
    reference: settleReference(own.reference ?? {}, reader),
    materialTempC:
      materialTempC === undefined
        ? null
        : reader.two('materialTempC', 'temperature', materialTempC),
    coverage: coverage === undefined ? null : settleCoverage(coverage, classUnit, reader),
    sheet: settleSheet(own.sheet ?? {}, reader),
  };
  return { figures, issues: reader.issues };
}

/** Printed as one figure, low and high, or low, typical and high; typical not named is the middle. */
function settleTime(key: TimeField, given: Own<TimeField>, reader: FigureReader): RefTime | null {
  const { printed, source, lowMin, typicalMin, highMin } = given;
  const exact = printed && reader.all(key, printed, inUnit('time'));
  if (exact === null) return null;
  if (exact && exact.length > 3) {
    return reader.say(
      `${key}.printed.value`,
      `has ${exact.length} figures; accepted are one, low and high, or low, typical and high.`,
    );
  }
  const low = reader.pick(`${key}.lowMin`, lowMin, exact?.[0], printed);
  const high = reader.pick(`${key}.highMin`, highMin, exact?.at(-1), printed);
  if (low === null || high === null) return null;
  const middle = exact?.length === 2 ? undefined : exact?.at(exact.length === 3 ? 1 : 0);
  const typical = reader.pick(`${key}.typicalMin`, typicalMin ?? (low + high) / 2, middle, printed);
  if (typical === null) return null;
  return { lowMin: low, typicalMin: typical, highMin: high, source, ...beside(printed) };
}

function settleTable(
  path: string,
  given: Own<'tables'>[number],
  reader: FigureReader,
): TimesTable | null {
  const { event, source, printed, relHumPct = [], tempC, minutes } = given;
  if (printed === undefined) {
    if (tempC && minutes) return { event, tempC, relHumPct, minutes, source };
    return reader.say(path, 'has no times; give tempC and minutes, or printed.');
  }
  const parts = asPrinted(printed);
  const temps = reader.all(`${path}.printed.temps`, parts.temps, inUnit('temperature'));
  const flat = reader.all(`${path}.printed.times`, parts.times, inUnit('time'));
  if (temps === null || flat === null) return null;
  if (!agree(tempC, temps) || !agree(minutes?.flat(), flat))
    return reader.say(path, 'is given in our units and printed, and the two do not say the same.');
  let next = 0;
  const rows = printed.times.map((row) => row.map(() => flat[next++]!));
  return { event, tempC: temps, relHumPct, minutes: rows, source, printed };
}

const agree = (given: readonly number[] | undefined, exact: readonly number[]): boolean =>
  given === undefined ||
  (given.length === exact.length && given.every((value, n) => standsFor(value, exact[n]!)));

function settleReference(given: Own<'reference'>, reader: FigureReader): SheetFigures['reference'] {
  const reference: Partial<Record<Reference, number>> = {};
  for (const [key, quantity] of [
    ['airTempC', 'temperature'],
    ['relHumPct', 'humidity'],
    ['windMps', 'speed'],
  ] as const) {
    const figure = given[key];
    if (figure === undefined) continue;
    const path = `reference.${key}`;
    const value =
      typeof figure === 'number'
        ? figure
        : reader.one(path, quantity, { ...figure, source: 'data sheet' })?.value;
    if (value !== undefined) reference[key] = value;
  }
  return reference;
}

function settleSheet(given: Own<'sheet'>, reader: FigureReader): Partial<SheetFacts> {
  const { weightKgM2, rollWidthsM, relaxMin, relaxColdMin } = given;
  const weight = weightKgM2 && reader.two('sheet.weightKgM2', 'weight', weightKgM2);
  const widths = rollWidthsM && settleWidths(rollWidthsM, reader);
  const relax = relaxMin && reader.one('sheet.relaxMin', 'time', relaxMin);
  const cold = relaxColdMin && reader.one('sheet.relaxColdMin', 'time', relaxColdMin);
  return {
    ...(weight && { weightKgM2: weight }),
    ...(widths && { rollWidthsM: widths }),
    ...(relax && { relaxMin: relax }),
    ...(cold && { relaxColdMin: cold }),
  };
}

function settleWidths(
  { values, printed, source }: NonNullable<Own<'sheet'>['rollWidthsM']>,
  reader: FigureReader,
): SheetFacts['rollWidthsM'] | null {
  const path = 'sheet.rollWidthsM';
  if (printed === undefined) {
    if (values) return { values, source };
    return reader.say(`${path}.values`, 'is missing; give the widths, or printed.');
  }
  const exact = reader.all(path, printed, inUnit('length'));
  if (exact === null) return null;
  if (agree(values, exact)) return { values: exact, source, printed };
  return reader.say(path, 'is given in m and printed, and the two do not say the same.');
}
