/** Product classes and a firm's own products: limits, drying behaviour, and the clock. */
export * from './clock.ts';
export { constantFilm } from './constant-weather.ts';
export * from './dose.ts';
export * from './limits.ts';
export { parseProduct } from './parse-product.ts';
export { type FilmAir, rateLaw } from './rates.ts';
export * from './types.ts';
