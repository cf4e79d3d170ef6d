/** Thousands apart, no cents: '14,000'. */
export const amount = (value: number): string =>
  String(Math.round(value)).replace(/\B(?=(\d{3})+$)/g, ',');

/** A sum of money as it is written everywhere, on the page, in print and in sentences: 'EUR 14,000'. */
export const money = (value: number, currency: string): string => `${currency} ${amount(value)}`;
