import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { StoreError } from './store-error.ts';

/**
 * The folder the program lives in, from any folder inside it: the nearest one above that holds both
 * package.json and data/. It is the same for the sources and for the built program.
 * @throws StoreError 'bundled-data'
 */
export function projectRoot(from: string): string {
  for (let folder = from; ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'package.json')) && existsSync(join(folder, 'data'))) return folder;
    if (dirname(folder) === folder) {
      throw new StoreError(
        'bundled-data',
        `The folder 'data' that comes with Layfair is missing: it was looked for in '${from}' and above. Get a fresh copy of the program.`,
      );
    }
  }
}
