/** Product classes and a firm's own products: limits, drying behaviour, and the clock. */
export * from './clock.ts';
export { constantFilm } from './constant-weather.ts';
export * from './dose.ts';
export type { FilmWeather } from './film-weather.ts';
export * from './joint.ts';
export * from './limits.ts';
export {
  type OwnProduct,
  parseOwnProduct,
  type ResolvedOwn,
  readOwnProduct,
  resolveOwnProduct,
} from './own-product.ts';
export * from './pack/index.ts';
export type { ProductIssue } from './parse-issues.ts';
export { parseProduct } from './parse-product.ts';
export { type NumberSide, type ProductNumber, productNumbers } from './product-numbers.ts';
export { type FilmAir, rateLaw } from './rates.ts';
export * from './sheet-flags.ts';
export { readTimesTable, type TablePoint } from './times-table.ts';
export * from './types.ts';
export { asOnSheet, type SpeedCorrection, withSpeed } from './with-speed.ts';
