import { beside, type FigureReader } from './own-product-figures.ts';
import type { OwnProduct } from './own-product-schema.ts';
import { middle } from './parse-agreement.ts';
import { type Converted, convertCoverage } from './printed-units.ts';
import {
  type CoverageUnit,
  type Limit,
  type NumberSource,
  type Printed,
  SUBSTRATES,
  type Substrate,
} from './types.ts';

export interface CoverageFigure {
  readonly value: number;
  readonly unit: CoverageUnit;
  readonly source: NumberSource;
  readonly printed?: Printed;
  readonly on: Partial<Record<Substrate, Limit>>;
}

/**
 * A coverage in our unit. One printed as a range stands for its middle; the unit printed says what
 * the product is measured by, so that a class in m2/L may have a product in m2/kg.
 * @param classUnit  what a figure without a unit is measured by
 */
export function settleCoverage(
  given: NonNullable<OwnProduct['coverage']>,
  classUnit: CoverageUnit,
  reader: FigureReader,
): CoverageFigure | null {
  const { value, unit, printed, source, on = {} } = given;
  const exact = printed && reader.all('coverage', middle(printed), convertCoverage);
  if (exact === null) return null;
  const printedUnit = printed && unitOf(printed.unit);
  if (unit !== undefined && printedUnit && unit !== printedUnit) {
    return reader.say(
      'coverage.unit',
      `is ${unit}, but printed beside it is ${printed.unit}, which is measured in ${printedUnit}: one of the two is wrong.`,
    );
  }
  const settledUnit = printedUnit ?? unit ?? classUnit;
  const alike = (figure: number, unitText: string): Converted => {
    const read = convertCoverage(figure, unitText);
    if (!read.ok || read.unit === settledUnit) return read;
    return {
      ok: false,
      accepted: `it must be measured like the coverage itself, in ${settledUnit}.`,
    };
  };
  const settledOn: Partial<Record<Substrate, Limit>> = {};
  for (const substrate of SUBSTRATES) {
    const there = on[substrate];
    if (there === undefined) continue;
    const path = `coverage.on.${substrate}`;
    const read = there.printed && reader.all(path, middle(there.printed), alike);
    if (read === null) continue;
    const picked = reader.pick(`${path}.value`, there.value, read?.[0], there.printed);
    if (picked === null) continue;
    settledOn[substrate] = { value: picked, source: there.source, ...beside(there.printed) };
  }
  const picked = reader.pick('coverage.value', value, exact?.[0], printed);
  if (picked === null) return null;
  return { value: picked, unit: settledUnit, source, ...beside(printed), on: settledOn };
}

function unitOf(text: string): CoverageUnit | undefined {
  const read = convertCoverage(1, text);
  return read.ok ? read.unit : undefined;
}
