import './node-version.mjs';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { runQuietly } from './child.mjs';
import { withLock } from './lock.mjs';
import { fingerprint, inProject, isMain, LaunchError, runLauncher, say } from './project.mjs';

const markerPath = inProject('node_modules', '.layfair-installed.json');

/**
 * Makes sure that the parts named in package-lock.json are there, without asking the network when they are.
 * @param {'run' | 'all'} mode run: what using Layfair needs; all: also what its tests need
 */
export async function ensureInstalled(mode) {
  if (isInstalled(mode)) return;
  await withLock(inProject('dist', '.install.lock'), 'fetching its parts', async () => {
    if (isInstalled(mode)) return;
    if (isInstalledByNpm(mode)) return writeMarker(mode);
    await install(mode);
  });
}

function isInstalled(mode) {
  const marker = readJson(markerPath);
  if (marker === null || marker.machine !== machine()) return false;
  if (marker.mode !== mode && marker.mode !== 'all') return false;
  return marker.lock === fingerprint(['package-lock.json']);
}

/** Someone may have called npm directly; its own account of what it put there is as good as ours. */
function isInstalledByNpm(mode) {
  const wanted = readJson(inProject('package-lock.json'))?.packages;
  const present = readJson(inProject('node_modules', '.package-lock.json'))?.packages;
  if (!wanted || !present) return false;
  return Object.entries(wanted).every(([path, part]) => {
    if (path === '' || !path.startsWith('node_modules/')) return true;
    const found = present[path];
    if (found) return found.version === part.version && found.integrity === part.integrity;
    if (part.optional || part.devOptional) return !isForThisMachine(part);
    return part.dev === true && mode === 'run';
  });
}

function isForThisMachine(part) {
  // Which C library a Linux part wants cannot be told from here, so such a part is never missed.
  if (part.libc || !part.os || !part.cpu) return false;
  return part.os.includes(process.platform) && part.cpu.includes(process.arch);
}

async function install(mode) {
  const startedMs = Date.now();
  say(
    mode === 'all'
      ? 'Fetching the parts that Layfair and its tests need. This happens once.'
      : 'Fetching the parts that Layfair needs. This happens once.',
  );
  rmSync(markerPath, { force: true });
  const [command, ...first] = npmCommand();
  const { code, output } = await runQuietly(
    command,
    [
      ...first,
      'ci',
      mode === 'all' ? '--include=dev' : '--omit=dev',
      '--no-audit',
      '--no-fund',
      '--prefer-offline',
      '--loglevel=error',
      '--fetch-retry-mintimeout=1000',
      '--fetch-retry-maxtimeout=5000',
    ],
    { doing: 'Fetching', shell: command === 'npm.cmd' },
  ).catch((error) => {
    throw new LaunchError(`Layfair could not start npm (${error.message}). Is npm installed?`);
  });
  if (code !== 0) throw new LaunchError(installProblem(output));
  writeMarker(mode);
  say(`Fetched in ${Math.round((Date.now() - startedMs) / 1000)} s.`);
}

function writeMarker(mode) {
  mkdirSync(inProject('node_modules'), { recursive: true });
  const marker = { mode, lock: fingerprint(['package-lock.json']), machine: machine() };
  writeFileSync(markerPath, `${JSON.stringify(marker)}\n`);
}

function machine() {
  return `${process.platform} ${process.arch}`;
}

function npmCommand() {
  const running = process.env.npm_execpath;
  // Under npm this is npm itself; under another package manager it is that one, which we cannot use.
  if (running && basename(running).startsWith('npm')) return [process.execPath, running];
  return [process.platform === 'win32' ? 'npm.cmd' : 'npm'];
}

/**
 * @param {string} output what npm printed
 * @returns {string} what to tell the person at the keyboard
 */
export function installProblem(output) {
  const offline =
    /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ENETUNREACH|EHOSTUNREACH|ETIMEDOUT|ERR_SOCKET_TIMEOUT|ENOTCACHED/;
  if (offline.test(output)) {
    return (
      'Layfair fetches its parts from the npm package registry the first time, and the registry cannot be reached. ' +
      'Connect to the internet and run the same command again; after that it works without.'
    );
  }
  if (/ENOSPC/.test(output)) {
    return 'The disk is full: Layfair could not put its parts into node_modules. Free some space and try again.';
  }
  const lines = output.split('\n').filter((line) => line.trim() !== '');
  return ['Layfair could not fetch its parts. npm said:', ...lines.slice(-15)].join('\n  ');
}

function readJson(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
}

if (isMain(import.meta.url)) {
  await runLauncher(async () => {
    const mode = process.argv[2] ?? 'run';
    if (mode !== 'run' && mode !== 'all') {
      throw new LaunchError(`'${mode}' is not something to install: use run or all.`);
    }
    await ensureInstalled(mode);
  });
}
