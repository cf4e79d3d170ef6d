import { openStore, StoreError } from '../../src/store/index.ts';
import { ANNA, FIRM, SOURCE, steppingClock, uuid } from './samples.ts';

/**
 * Run as a process of its own on a disk that fills up: saves forecasts until one fails, then shows
 * that the store still answers. Prints one line of JSON. Argument: file.
 */
const [file] = process.argv.slice(2) as [string];
const store = await openStore({ file, now: steppingClock() });
await store.ensureFirm(FIRM);

const saved: string[] = [];
let error: StoreError | null = null;
for (let i = 0; i < 10_000 && error === null; i++) {
  const requestId = uuid();
  const bytes = crypto.getRandomValues(new Uint8Array(20_000));
  try {
    const result = await store.saveForecast(ANNA, {
      requestId,
      jobId: null,
      placeKey: 'p',
      source: SOURCE,
      bytes,
    });
    if (result.ok) saved.push(result.value.id);
  } catch (caught) {
    if (!(caught instanceof StoreError)) throw caught;
    error = caught;
  }
}
const listed = (await store.forecasts(ANNA, 'p')).value.map((row) => row.id).reverse();
await store.close();
console.log(JSON.stringify({ saved, listed, code: error?.code, message: error?.message }));
