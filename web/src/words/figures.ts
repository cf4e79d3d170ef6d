const plain = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 1 });
const whole = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 0 });

/** At most one decimal, thousands apart. */
export const figure = (value: number): string => plain.format(value);

export const percent = (share: number): string => `${whole.format(share * 100)} %`;

const UNIT_WORDS: Readonly<Record<string, string>> = {
  m2: 'm²',
  'm2/L': 'm²/L',
  'm2/kg': 'm²/kg',
  'm2/m': 'm² per metre of ribbon',
  'm2/m2': 'm² per m² of sheet',
  'kg/m2': 'kg/m²',
};

/** 'm²/L' for m2/L: what people write for a unit that is stored in plain letters. */
export const unitWords = (unit: string): string => UNIT_WORDS[unit] ?? unit;

/** The number with its unit beside it: '27 m²', '14.4 m', '3'. */
export function quantityWords(quantity: { readonly value: number; readonly unit: string }): string {
  if (quantity.unit === 'no.') return `${figure(quantity.value)} no.`;
  return `${figure(quantity.value)} ${UNIT_WORDS[quantity.unit] ?? quantity.unit}`;
}

/** Forecasts made from a single one are never called forecasts of a weather centre. */
export function forecastsWords(count: number, made = false): string {
  if (made) return `${count} made from one forecast`;
  return count === 1 ? '1 forecast' : `${count} forecasts`;
}

export const peopleWords = (people: number): string =>
  people === 1 ? '1 person' : `${people} people`;

export function minutesWords(minutes: number): string {
  const rounded = Math.round(minutes);
  if (rounded < 60) return `${rounded} min`;
  const rest = rounded % 60;
  return rest === 0 ? `${rounded / 60} h` : `${Math.floor(rounded / 60)} h ${rest} min`;
}
