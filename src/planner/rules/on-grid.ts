/**
 * A limit as the grid would hold it. Columns are 32-bit: 7.6 m/s is kept as 7.5999999, which is on a
 * limit of 7.6 and must not slip under it.
 */
export const onGrid = Math.fround;
