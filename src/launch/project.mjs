import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, realpathSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds package.json. */
export const root = fileURLToPath(new URL('../..', import.meta.url));

/** @param {...string} parts path below the project folder */
export function inProject(...parts) {
  return join(root, ...parts);
}

/**
 * Whether the file with this import.meta.url is the one node was asked to run.
 * @param {string} url
 */
export function isMain(url) {
  if (!process.argv[1]) return false;
  try {
    return realpathSync(process.argv[1]) === realpathSync(fileURLToPath(url));
  } catch {
    return false;
  }
}

/** Words about the work in hand; stdout stays free for a command's own output. */
export function say(sentence) {
  process.stderr.write(`${sentence}\n`);
}

/** A failure that is explained in a sentence and needs no stack trace. */
export class LaunchError extends Error {}

/** Runs a launcher and turns a LaunchError into its sentence and exit code 1. */
export async function runLauncher(work) {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof LaunchError)) throw error;
    say(error.message);
    process.exit(1);
  }
}

/**
 * One fingerprint of the names and contents of files and whole folders; a missing one counts as absent.
 * @param {readonly string[]} entries paths below the project folder
 */
export function fingerprint(entries) {
  const hash = createHash('sha256');
  for (const entry of entries) addEntry(hash, inProject(entry));
  return hash.digest('hex');
}

function addEntry(hash, path) {
  const children = childrenOf(path);
  if (children === null) return addFile(hash, path);
  for (const child of children) {
    const childPath = join(path, child.name);
    if (child.isDirectory()) addEntry(hash, childPath);
    else if (child.isFile()) addFile(hash, childPath);
  }
}

function childrenOf(path) {
  try {
    const children = readdirSync(path, { withFileTypes: true });
    // Editors leave dot files behind; none of ours is an input of the build.
    const seen = children.filter((child) => !child.name.startsWith('.'));
    return seen.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
  } catch (error) {
    if (error.code === 'ENOTDIR' || error.code === 'ENOENT') return null;
    throw error;
  }
}

function addFile(hash, path) {
  let content;
  try {
    content = readFileSync(path);
  } catch (error) {
    if (error.code !== 'ENOENT') throw error;
    content = null;
  }
  const name = relative(root, path).split(sep).join('/');
  hash.update(`${name}\0${content === null ? 'absent' : content.length}\0`);
  if (content !== null) hash.update(content);
}
