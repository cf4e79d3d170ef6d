/** How forecasts are counted in words: those made from a single one are no weather centre's. */
export function forecastsWords(count: number, made: boolean): string {
  return made ? `${count} made from one forecast` : `${count} forecasts`;
}
