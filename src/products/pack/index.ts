/** The clock pack: all clocks of one job and day in whole numbers, to be read with no signal. */
export { decodePack, type PackRead } from './decode.ts';
export { MOST_SENSITIVE } from './decode-parts.ts';
export { type EncodedPack, encodePack } from './encode.ts';
export { readPack } from './read-pack.ts';
export {
  askFilm,
  type Coat,
  type SiteClocks,
  type SiteEntry,
  type SiteFilm,
  siteClocks,
} from './site-log.ts';
export { type LogEntry, standingLog } from './standing-log.ts';
export { wholeSteps } from './steps.ts';
export * from './types.ts';
