import { mkdirSync, readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { serve } from '@hono/node-server';
import { parseJob } from '../answers/index.ts';
import { createFeedClient, feedConfigFromEnv, readWeatherFile } from '../feed/index.ts';
import { parseProduct } from '../products/index.ts';
import {
  loadDemo,
  loadShelf,
  openStore,
  projectRoot,
  StoreError,
  seedDemo,
} from '../store/index.ts';
import { parseInstant, systemNowMs } from '../time/index.ts';
import { seededRandom } from '../units/index.ts';
import { createApp } from './app.ts';
import { firmClocks } from './firm-clocks.ts';
import { OWN_CTX, OWN_FIRM } from './own-firm.ts';
import { planningDesk } from './planning/planning-desk.ts';
import { Tasks } from './tasks.ts';
import { weatherDesk } from './weather-desk.ts';

const DEFAULT_PORT = 4870;
/** How long a request under way may hold up the end. */
const PATIENCE_MS = 3000;
/** Built or not, the thread's module has the ending of this one. */
const PLANNING_THREAD = new URL(
  `./planning/thread${extname(fileURLToPath(import.meta.url))}`,
  import.meta.url,
);

/** A start that cannot go on, with the sentence to print. */
class CannotStart extends Error {}

async function main(): Promise<void> {
  const port = readPort(process.env['PORT']);
  const now = readNow(process.argv.slice(2));
  const root = projectRoot(import.meta.dirname);
  const dataDir = join(root, 'data');
  const folder = process.env['LAYFAIR_DATA'] ?? join(root, '.layfair');
  makeFolder(folder);

  const shelf = loadShelf(dataDir, parseProduct);
  const demoWeather = readWeatherFile(readFileSync(join(dataDir, 'demo', 'ensemble.json')));
  if (!demoWeather.ok)
    throw new CannotStart(demoWeather.issues.map((issue) => issue.message).join(' '));
  const demoStartMs = demoWeather.weather.source.issuedMs;
  if (demoStartMs === null)
    throw new CannotStart('The bundled demo forecast does not say when it was issued.');

  const store = await openStore({ file: join(folder, 'layfair.sqlite'), now });
  const demo = loadDemo(dataDir, parseJob);
  await seedDemo(store, demo);
  await store.ensureFirm(OWN_FIRM);

  const feed = feedFor(folder, now);
  const weather = weatherDesk(demoWeather.weather, feed);
  const tasks = new Tasks();
  const planning = planningDesk(PLANNING_THREAD);
  const app = createApp(
    {
      store,
      shelf,
      clocks: firmClocks(now, demoStartMs),
      weather,
      planning,
      tasks,
      demo: { firmId: demo.firm.id, actorId: OWN_CTX.actorId },
      own: OWN_CTX,
    },
    { webDir: join(root, 'dist', 'web'), logError: (error) => console.error(error) },
  );
  const server = serve({ fetch: app.fetch, hostname: '127.0.0.1', port }, (address) => {
    console.log(`Layfair is at http://127.0.0.1:${address.port}`);
    if ('why' in feed) console.log(feed.why);
  });
  server.on('error', (error: NodeJS.ErrnoException) => {
    fail(
      error.code === 'EADDRINUSE'
        ? portTaken(port)
        : `Layfair cannot listen on port ${port}: ${error.message}`,
    );
  });
  const stop = () => {
    tasks.stopAll();
    // Answers under way are still sent; a connection that stays busy is cut in the end.
    setTimeout(() => (server as Server).closeAllConnections(), PATIENCE_MS).unref();
    server.close(() => {
      void Promise.all([planning.close(), store.close(), weather.close()]).then(() =>
        process.exit(0),
      );
    });
  };
  process.once('SIGINT', stop);
  process.once('SIGTERM', stop);
}

function feedFor(folder: string, now: () => number) {
  const config = feedConfigFromEnv(process.env);
  if (!config.live) return { why: config.why };
  return createFeedClient({
    ...config,
    now,
    sleep: (ms) => new Promise((resolve) => setTimeout(resolve, ms)),
    random: seededRandom(now()),
    cacheDir: join(folder, 'forecasts'),
  });
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    const why = (error as NodeJS.ErrnoException).code ?? String(error);
    throw new CannotStart(
      `LAYFAIR_DATA is '${folder}', and that folder cannot be made (${why}); give a folder you may write in.`,
    );
  }
}

function readPort(text: string | undefined): number {
  if (text === undefined || text.trim() === '') return DEFAULT_PORT;
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65535) return port;
  throw new CannotStart(`PORT is '${text}'; it must be a whole number from 0 to 65535.`);
}

function portTaken(port: number): string {
  return `Port ${port} is already in use. Maybe Layfair is already running: open http://127.0.0.1:${port}. Or choose another port: PORT=${port + 1} npm start`;
}

function readNow(args: readonly string[]): () => number {
  let given: string | undefined;
  try {
    given = parseArgs({ args: [...args], options: { now: { type: 'string' } } }).values.now;
  } catch (error) {
    throw new CannotStart(`${(error as Error).message}. Accepted: --now ISO.`);
  }
  if (given === undefined) return systemNowMs;
  const read = parseInstant(given, null);
  if (!read.ok) throw new CannotStart(`--now ${read.message}.`);
  const offsetMs = read.ms - systemNowMs();
  return () => systemNowMs() + offsetMs;
}

function fail(message: string): never {
  console.error(message);
  process.exit(1);
}

await main().catch((error: unknown) => {
  if (error instanceof CannotStart || error instanceof StoreError) fail(error.message);
  console.error(error);
  fail('Layfair could not start. This is a fault in Layfair, not in what you gave it.');
});
