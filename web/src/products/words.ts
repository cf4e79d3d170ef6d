import type { NumberSide, Product, ProductJob } from '../../../src/products/index.ts';
import { figure, unitWords } from '../words/figures.ts';

/** The words of the product pages for what the answers name by code. */

export const JOB_WORDS: Readonly<Record<ProductJob, string>> = {
  field: 'field',
  perimeter: 'edges and upstands',
  primer: 'priming laps and patches',
  'lap-tape': 'laps',
  patch: 'corners and details',
  sealant: 'sealing laps and edges',
  'water-block': 'behind bars and at outlets',
  'night-seal': 'closing for the night',
  sheet: 'the membrane itself',
};

const MECHANISM_WORDS: Readonly<Record<Product['mechanism'], string>> = {
  water: 'Dries as water leaves it',
  solvent: 'Dries as solvent leaves it',
  'moisture-cure': 'Cures with moisture from the air',
  chemical: 'Two parts react',
  none: 'Nothing has to dry',
};

const CLOSING_WORDS: Readonly<Record<Product['closing'], string>> = {
  wet: 'closed while wet',
  'touch-dry': 'closed once touch dry',
  none: '',
};

/** 'Dries as solvent leaves it; both faces coated, closed once touch dry.' */
export function natureWords({ mechanism, closing, faces }: Product): string {
  const close = CLOSING_WORDS[closing];
  const how = close === '' ? '' : `; ${faces === 2 ? 'both faces' : 'one face'} coated, ${close}`;
  return `${MECHANISM_WORDS[mechanism]}${how}.`;
}

export const jobsWords = (does: readonly ProductJob[]): string =>
  does.map((job) => JOB_WORDS[job]).join('; ');

const plain = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 2 });

/** Minutes up to three hours, then hours, then days: as a sheet would print it. */
function timeUnit(longestMin: number): { per: number; unit: string } {
  if (longestMin <= 180) return { per: 1, unit: 'min' };
  return longestMin < 72 * 60 ? { per: 60, unit: 'h' } : { per: 1440, unit: 'days' };
}

/** '5 °C', '15 to 27 °C', '10 to 25 min, typically 17.5'. */
export function sideWords({ values, unit }: Pick<NumberSide, 'values' | 'unit'>): string {
  if (unit === 'each') return 'one for each detail';
  const time = unit === 'min' ? timeUnit(Math.max(...values)) : { per: 1, unit };
  const words = values.map((value) =>
    unit === 'min' ? figure(value / time.per) : plain.format(value),
  );
  const sign = unitWords(time.unit);
  const [low, middle, high] = words;
  if (values.length === 3 && unit === 'min') {
    return low === high ? `${low} ${sign}` : `${low} to ${high} ${sign}, typically ${middle}`;
  }
  if (values.length === 2) return `${low} to ${middle} ${sign}`;
  return `${words.join(', ')} ${sign}`;
}

/** '40 °F' or '10 to 20 min', as the sheet prints it. */
export function printedWords(printed: NonNullable<NumberSide['printed']>): string {
  const { value, unit } = printed;
  return `${typeof value === 'number' ? value : value.join(' to ')} ${unit}`;
}
