/** Hundredths of a square metre, rounded up: a hair less would ask for one bay more. */
export const askedFor = (areaM2: number): number => Math.ceil(areaM2 * 100 - 1e-6) / 100;
