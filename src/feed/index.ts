/** Forecasts from outside: the Open-Meteo client with its cache, and the reader of saved answers. */

export type { Wish } from './ask.ts';
export { ATTRIBUTION } from './attribution.ts';
export { bestAtHand } from './best-at-hand.ts';
export { createFeedClient, type FeedClient, type FeedClientOptions } from './client.ts';
export { type BaseUrls, type FeedConfig, feedConfigFromEnv, NOT_SET_UP } from './config.ts';
export { DEFAULT_MODEL, ENSEMBLE_MODELS, type EnsembleModel, FORECAST_DAYS } from './models.ts';
export { NO_GUSTS_NOTE } from './notes.ts';
export type { Timeouts } from './one-request.ts';
export { checkPlace, distanceKm, MAX_CELL_DISTANCE_KM } from './place.ts';
export { type ReadFileOptions, readWeatherFile } from './read-file.ts';
export { type ReadOptions, readWeatherResponse } from './read-response.ts';
export type * from './types.ts';
