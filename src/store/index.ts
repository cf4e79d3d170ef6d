/**
 * Saved things behind one async interface: firms, jobs with their history, the site log, crews, a
 * firm's own products, and forecasts as received. The only room that knows SQL. See docs/storage.md.
 */
import type { OpenStoreOptions } from './open-store.ts';
import type { Store } from './types.ts';

export { type JobParser, loadDemo, loadShelf, type ProductParser } from './bundled.ts';
export { projectRoot } from './project-root.ts';
export { type Demo, type Seeded, seedDemo } from './seed-demo.ts';
export { STORE_ERROR_CODES, StoreError, type StoreErrorCode } from './store-error.ts';
export * from './types.ts';

/** Opens a store file, see open-store.ts. SQL is loaded with it: the command line reads data without. */
export async function openStore(options: OpenStoreOptions): Promise<Store> {
  const { openStore: open } = await import('./open-store.ts');
  return open(options);
}
