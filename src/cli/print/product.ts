import type { NumberSide, Product, ProductNumber, TimesTable } from '../../products/index.ts';
import { table, wrap } from './table.ts';

/** A product file that is in order: what it comes to, with every number's source. */
export interface CheckedProduct {
  readonly product: Product;
  readonly numbers: readonly ProductNumber[];
  readonly notes: readonly string[];
}

/** Numbers with class, sheet and which counts; limits both name; tables; cautions. */
export function printProduct({ product, numbers, notes }: CheckedProduct): string {
  const { id, name, basedOn, does, reference, tables, limitChoices = [], hazards } = product;
  const { airTempC, relHumPct, windMps } = reference;
  return [
    `${name} (${id})${basedOn === undefined ? '' : `, from the class ${basedOn}`}`,
    `For ${does.join(', ')}. Dries by: ${product.mechanism}. Closed: ${product.closing}, coated faces: ${product.faces}.`,
    `Times at ${figure(airTempC)} °C, ${figure(relHumPct)} % and wind ${figure(windMps)} m/s, low / typical / high, from coating.`,
    '',
    ...numberLines(numbers.flatMap((number) => numberRows(number, basedOn !== undefined))),
    ...tables.flatMap((one) => ['', ...tableLines(one)]),
    ...section(
      'Where class and sheet differ',
      limitChoices.map(({ words }) => words),
    ),
    ...section('Worked out', notes),
    ...section('Cautions', hazards),
    ...section('Use', product.advice ?? []),
    '',
    'The data sheet, local codes and licensed practice come before these numbers.',
    '',
  ].join('\n');
}

/** The figure that counts and whose it is; below it what the other of class and sheet says. */
function numberRows(number: ProductNumber, isOwn: boolean): string[][] {
  const { words, counts, countsFrom, fromClass, fromSheet } = number;
  const rows = [[words, valueWords(counts), sourceWords(counts, isOwn ? countsFrom : null)]];
  for (const [whose, side] of [
    ['class', fromClass],
    ['sheet', fromSheet],
  ] as const) {
    if (!isOwn || side === null || whose === countsFrom) continue;
    rows.push(['', valueWords(side), `${sourceWords(side, whose)}; not used`]);
  }
  return rows;
}

/** Two columns, and the source broken where it runs past the page. */
function numberLines(rows: readonly (readonly string[])[]): string[] {
  const width = (c: number) => Math.max(...rows.map((row) => row[c]!.length));
  const [first, second] = [width(0), width(1)];
  return rows.flatMap(([words = '', value = '', source = '']) =>
    wrap(source, `${words.padEnd(first)}  ${value.padEnd(second)}  `),
  );
}

function valueWords({ values, unit }: NumberSide): string {
  const alike = values.every((value) => value === values[0]);
  return `${(alike ? values.slice(0, 1) : values).map(figure).join(' / ')} ${unit}`;
}

/** 'sheet: data sheet, printed 40 °F' */
function sourceWords({ source, printed }: NumberSide, whose: string | null): string {
  const shown =
    printed === null
      ? ''
      : `, printed ${[printed.value].flat().map(figure).join(' to ')} ${printed.unit}`;
  return `${whose === null ? '' : `${whose}: `}${source}${shown}`;
}

function tableLines({ event, tempC, relHumPct, minutes, source, printed }: TimesTable): string[] {
  const head = relHumPct.length === 0 ? ['min'] : relHumPct.map((value) => `${figure(value)} %`);
  const shown =
    printed === undefined ? '' : `; printed in ${printed.tempUnit} and ${printed.timeUnit}`;
  return [
    `Table of ${event} [min] (${source}${shown}); inside it counts before the times above`,
    ...table([
      ['', ...head],
      ...tempC.map((value, r) => [`${figure(value)} °C`, ...minutes[r]!.map(figure)]),
    ]),
  ];
}

function section(title: string, sentences: readonly string[]): string[] {
  return sentences.length === 0
    ? []
    : ['', title, ...sentences.flatMap((sentence) => wrap(sentence, '  - '))];
}

const figure = (value: number): string => String(Number(value.toPrecision(4)));
