/** Credit, licence and what was changed, as CC BY 4.0 asks; printed wherever the weather is shown. */
export const ATTRIBUTION =
  'Weather data by Open-Meteo.com (CC BY 4.0), https://open-meteo.com/; ' +
  'changed: turned into chances and times by Layfair';

/** The provider passes UK Met Office data on under a share-alike licence. */
export function attributionFor(model: string | null): string {
  return model?.startsWith('ukmo')
    ? `${ATTRIBUTION}; UK Met Office data (CC BY-SA 4.0)`
    : ATTRIBUTION;
}
