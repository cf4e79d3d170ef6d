import { mkdir, open, readFile, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import type { Place } from './types.ts';

const entryShape = z.strictObject({
  format: z.literal(1),
  fetchedMs: z.number().int().nonnegative(),
  issuedMs: z.number().int().nonnegative().nullable(),
  model: z.string(),
  /** Days asked for; an entry serves shorter wishes too. */
  days: z.number().int().positive(),
  pastDays: z.number().int().nonnegative(),
  elevationM: z.number().nullable(),
  /** What was known of the run when it was fetched. */
  notes: z.array(z.string()),
  /** The service's answer as it came. */
  body: z.string(),
});
export type CacheEntry = z.infer<typeof entryShape>;

export interface ForecastCache {
  read(key: string): Promise<CacheEntry | null>;
  /** Null when kept, else the sentence why not: a forecast that cannot be kept is still good. */
  write(key: string, entry: Omit<CacheEntry, 'format'>): Promise<string | null>;
}

/** A place to the hundredth of a degree (about 1 km): neighbouring sites share one forecast. */
export function roundedPlace(place: Place): Place {
  // + 0 turns -0 into 0, so that both sides of the meridian give one key.
  const round = (deg: number) => Math.round(deg * 100) / 100 + 0;
  return { latitudeDeg: round(place.latitudeDeg), longitudeDeg: round(place.longitudeDeg) };
}

export function cacheKey(
  endpoint: 'ensemble' | 'forecast' | 'quarters',
  model: string,
  place: Place,
): string {
  const p = roundedPlace(place);
  return `${endpoint}_${model}_${p.latitudeDeg.toFixed(2)}_${p.longitudeDeg.toFixed(2)}`;
}

let writes = 0;

/** One file per key, replaced as a whole: a reader sees the old entry or the new one, never a part. */
export function diskCache(dir: string): ForecastCache {
  const fileOf = (key: string) => join(dir, `${key.replace(/[^a-z0-9_.-]/gi, '_')}.json`);
  return {
    async read(key) {
      try {
        const parsed = entryShape.safeParse(JSON.parse(await readFile(fileOf(key), 'utf8')));
        return parsed.success ? parsed.data : null;
      } catch {
        // Absent or damaged: the same as never fetched; the next good answer replaces it.
        return null;
      }
    },
    async write(key, entry) {
      const temp = `${fileOf(key)}.${process.pid}-${writes++}.tmp`;
      try {
        await mkdir(dir, { recursive: true });
        await writeThrough(temp, JSON.stringify({ format: 1, ...entry }));
        await rename(temp, fileOf(key));
        await syncFolder(dir);
        return null;
      } catch (error) {
        await rm(temp, { force: true }).catch(() => {});
        const why =
          error instanceof Error && 'code' in error ? String(error.code) : 'unknown reason';
        return `this forecast could not be kept on disk (${why})`;
      }
    },
  };
}

/** Without a folder nothing is kept, and no last forecast is at hand when the service is down. */
export const noCache: ForecastCache = { read: async () => null, write: async () => null };

async function writeThrough(path: string, text: string): Promise<void> {
  const file = await open(path, 'w');
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}

/** Makes the rename itself survive a power cut; some systems cannot open a folder, which is no loss. */
async function syncFolder(dir: string): Promise<void> {
  const folder = await open(dir, 'r').catch(() => null);
  await folder?.sync().catch(() => {});
  await folder?.close();
}
