import { LIMIT_NAMES, SUBSTRATE_WORDS, TIME_WORDS } from './number-words.ts';
import type { SheetFigures } from './own-product-settle.ts';
import { TIMES, type TimeField } from './parse-times.ts';
import { LIMIT_KEYS, type NumberSource, type Printed, type Product, SUBSTRATES } from './types.ts';

/** One side of a number: what it says, in which unit, on whose word, and how it was printed. */
export interface NumberSide {
  /** One figure; low and high; or low, typical and high. */
  readonly values: readonly number[];
  readonly unit: string;
  readonly source: NumberSource;
  readonly printed: Printed | null;
}

/** A number of a product with where it comes from. */
export interface ProductNumber {
  readonly field: string;
  /** What it is, as people say it. */
  readonly words: string;
  readonly fromClass: NumberSide | null;
  /** What the firm's own sheet says; null where it says nothing. */
  readonly fromSheet: NumberSide | null;
  /** The figure Layfair reckons with. */
  readonly counts: NumberSide;
  /** Whose it is; 'worked out' = carried to the sheet's conditions, or read off its table. */
  readonly countsFrom: 'class' | 'sheet' | 'worked out';
}

type Figures = ReadonlyMap<string, NumberSide & { readonly words: string }>;

/**
 * Every number of a product with its source, in a fixed order. Reference conditions and tables stand
 * for themselves and are not among them.
 * @param own  for a firm's own product: the class it starts from and what its sheet says
 */
export function productNumbers(
  product: Product,
  own: { readonly klass: Product; readonly figures: SheetFigures } | null = null,
): readonly ProductNumber[] {
  const counts = figuresOf(product);
  const ofClass = own === null ? counts : figuresOf(own.klass);
  const ofSheet: Figures =
    own === null ? new Map() : figuresOf(sheetAsProduct(own.klass, own.figures), own.figures);
  return [...counts].map(([field, { words, ...used }]) => {
    const fromClass = side(ofClass.get(field));
    const fromSheet = side(ofSheet.get(field));
    const countsFrom =
      fromSheet !== null && alike(fromSheet, used)
        ? 'sheet'
        : fromClass !== null && alike(fromClass, used)
          ? 'class'
          : 'worked out';
    return { field, words, fromClass, fromSheet, counts: used, countsFrom };
  });
}

function side(figure: (NumberSide & { readonly words: string }) | undefined): NumberSide | null {
  if (figure === undefined) return null;
  const { words: _words, ...rest } = figure;
  return rest;
}

const alike = (a: NumberSide, b: NumberSide): boolean =>
  a.unit === b.unit &&
  a.source === b.source &&
  a.values.length === b.values.length &&
  a.values.every((value, n) => value === b.values[n]);

/** The sheet's figures in the shape of a product, so that they are listed alike. */
function sheetAsProduct(klass: Product, figures: SheetFigures): Product {
  const { times, limits, materialTempC, coverage } = figures;
  const { sheet: _sheet, ...rest } = klass;
  const none = Object.fromEntries(TIMES.map((key) => [key, null])) as Record<TimeField, null>;
  return {
    ...rest,
    ...none,
    ...times,
    limits,
    materialTempC,
    coverage: coverage ?? klass.coverage,
  };
}

/** @param only  where given, coverage and sheet are listed as far as these figures name them */
function figuresOf(product: Product, only?: SheetFigures): Figures {
  const list = new Map<string, NumberSide & { readonly words: string }>();
  const add = (
    field: string,
    words: string,
    unit: string,
    values: readonly number[],
    { source, printed }: { readonly source: NumberSource; readonly printed?: Printed | undefined },
  ) => list.set(field, { words, values, unit, source, printed: printed ?? null });

  for (const key of TIMES) {
    const time = product[key];
    if (time) add(key, TIME_WORDS[key], 'min', [time.lowMin, time.typicalMin, time.highMin], time);
  }
  if (only === undefined || only.coverage !== null) {
    const { value, unit, on = {}, ...whence } = product.coverage;
    add('coverage', 'Covers', unit, [value], whence);
    for (const substrate of SUBSTRATES) {
      const there = on[substrate];
      if (there)
        add(
          `coverage.on.${substrate}`,
          `Covers on ${SUBSTRATE_WORDS[substrate]}`,
          unit,
          [there.value],
          there,
        );
    }
  }
  const { materialTempC } = product;
  if (materialTempC) {
    const { low, high } = materialTempC;
    add('materialTempC', 'Material itself at', '°C', [low, high], materialTempC);
  }
  const { weightKgM2, rollWidthsM, relaxMin, relaxColdMin } = only?.sheet ?? product.sheet ?? {};
  if (weightKgM2) {
    const { low, high } = weightKgM2;
    add('sheet.weightKgM2', 'Weight', 'kg/m2', [low, high], weightKgM2);
  }
  if (rollWidthsM) add('sheet.rollWidthsM', 'Roll widths', 'm', rollWidthsM.values, rollWidthsM);
  if (relaxMin) add('sheet.relaxMin', 'Relaxes for', 'min', [relaxMin.value], relaxMin);
  if (relaxColdMin) {
    const words = 'Relaxes, cold or folded, for';
    add('sheet.relaxColdMin', words, 'min', [relaxColdMin.value], relaxColdMin);
  }
  for (const key of LIMIT_KEYS) {
    const limit = product.limits[key];
    const { words, unit } = LIMIT_NAMES[key];
    if (limit) add(`limits.${key}`, words, unit, [limit.value], limit);
  }
  return list;
}
