/**
 * Saved things behind one async interface: firms, jobs with their history, the site log, crews, a
 * firm's own products, and forecasts as received. The only room that knows SQL. See docs/storage.md.
 */
export { type JobParser, loadDemo, loadShelf, type ProductParser } from './bundled.ts';
export { openStore } from './open-store.ts';
export { projectRoot } from './project-root.ts';
export { type Demo, type Seeded, seedDemo } from './seed-demo.ts';
export { STORE_ERROR_CODES, StoreError, type StoreErrorCode } from './store-error.ts';
export * from './types.ts';
