import { type Dirent, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { StoreError } from './store-error.ts';

/** One JSON file that comes with the program, as parsed and not yet checked. */
export interface BundledFile {
  readonly file: string;
  /** File name without folder and '.json'. */
  readonly name: string;
  readonly value: unknown;
}

export interface Bundled {
  readonly products: readonly BundledFile[];
  readonly demo: readonly BundledFile[];
}

/**
 * Reads the data that comes with the program: data/products/*.json and data/demo/*.json, by name.
 * @throws StoreError 'bundled-data' naming every file that is missing or is not JSON
 */
export function loadBundled(dataDir: string): Bundled {
  const problems: string[] = [];
  const products = readFolder(join(dataDir, 'products'), problems);
  const demo = readFolder(join(dataDir, 'demo'), problems);
  refuse(problems);
  return { products, demo };
}

/**
 * Checks each bundled file with the parser of the room that owns its meaning.
 * @param parse returns the value or throws an error whose message says what is wrong
 * @throws StoreError 'bundled-data' naming every file that does not pass
 */
export function parseBundled<T>(
  files: readonly BundledFile[],
  parse: (value: unknown) => T,
): readonly T[] {
  const problems: string[] = [];
  const parsed = files.flatMap(({ file, value }) => {
    try {
      return [parse(value)];
    } catch (error) {
      problems.push(`'${file}' does not hold what it should: ${messageOf(error)}`);
      return [];
    }
  });
  refuse(problems);
  return parsed;
}

function readFolder(folder: string, problems: string[]): BundledFile[] {
  let entries: Dirent[];
  try {
    entries = readdirSync(folder, { withFileTypes: true });
  } catch (error) {
    problems.push(`the folder '${folder}' cannot be read: ${messageOf(error)}`);
    return [];
  }
  const names = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith('.json'))
    .map((entry) => entry.name)
    .sort();
  if (names.length === 0) problems.push(`the folder '${folder}' holds no .json file`);
  return names.flatMap((name) => {
    const file = join(folder, name);
    try {
      const value: unknown = JSON.parse(readFileSync(file, 'utf8'));
      return [{ file, name: name.slice(0, -'.json'.length), value }];
    } catch (error) {
      const what = error instanceof SyntaxError ? 'is not valid JSON' : 'cannot be read';
      problems.push(`'${file}' ${what}: ${messageOf(error)}`);
      return [];
    }
  });
}

function refuse(problems: readonly string[]): void {
  if (problems.length === 0) return;
  throw new StoreError(
    'bundled-data',
    `The data that comes with Layfair is not complete; get a fresh copy of the program. ${problems.join('; ')}.`,
  );
}

const messageOf = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);
