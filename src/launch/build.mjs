import './node-version.mjs';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { runQuietly } from './child.mjs';
import { ensureInstalled } from './install.mjs';
import { withLock } from './lock.mjs';
import { fingerprint, inProject, isMain, LaunchError, runLauncher, say } from './project.mjs';

/**
 * The two halves of the build. Each is made aside and put in place whole, so that a failed or interrupted
 * build leaves the last good one, and a broken page does not stop the command line.
 */
const halves = {
  server: {
    words: 'the programs',
    inputs: ['src', 'tsconfig.json', 'package-lock.json'],
    command: (outFolder) => [
      inProject('node_modules', 'typescript', 'bin', 'tsc'),
      ...['-p', inProject('src'), '--outDir', outFolder, '--noEmitOnError', '--pretty', 'false'],
    ],
  },
  web: {
    words: 'the pages',
    inputs: ['web', 'src', 'tsconfig.json', 'package-lock.json'],
    command: (outFolder) => [
      inProject('node_modules', 'vite', 'bin', 'vite.js'),
      ...['build', '-c', inProject('web', 'vite.config.ts'), '--outDir', outFolder],
      ...['--emptyOutDir', '--logLevel', 'warn'],
    ],
  },
};

/**
 * Builds what is out of date, and nothing else.
 * @param {readonly ('server' | 'web')[]} names which halves are needed
 * @throws {LaunchError} with what the compiler said
 */
export async function ensureBuilt(names) {
  const late = (name) => !isBuilt(name, fingerprint(halves[name].inputs));
  if (!names.some(late)) return;
  await withLock(inProject('dist', '.build.lock'), 'building', async (lock) => {
    const todo = names.filter(late);
    if (todo.length === 0) return;
    say(`Building ${todo.map((name) => halves[name].words).join(' and ')}.`);
    clearLeftovers();
    const outcomes = await Promise.allSettled(todo.map((name) => buildHalf(name, lock)));
    clearLeftovers();
    const failures = outcomes.filter((outcome) => outcome.status === 'rejected');
    for (const { reason } of failures) if (!(reason instanceof LaunchError)) throw reason;
    if (failures.length > 0) {
      throw new LaunchError(failures.map((failure) => failure.reason.message).join('\n'));
    }
  });
}

function isBuilt(name, inputsFingerprint) {
  try {
    const stamp = readFileSync(inProject('dist', name, '.built'), 'utf8');
    return stamp === inputsFingerprint;
  } catch {
    return false;
  }
}

async function buildHalf(name, lock) {
  const half = halves[name];
  // Taken before compiling: a file changed meanwhile then makes this build out of date, never falsely fresh.
  const inputsFingerprint = fingerprint(half.inputs);
  const making = inProject('dist', `.making-${name}-${process.pid}`);
  mkdirSync(making, { recursive: true });
  try {
    const { code, output } = await runQuietly(process.execPath, half.command(making), {
      doing: `Building ${half.words}`,
    });
    if (code !== 0) {
      throw new LaunchError(`Layfair could not build ${half.words}:\n${withoutTrace(output)}`);
    }
    writeFileSync(`${making}/.built`, inputsFingerprint);
    if (!lock.stillMine()) {
      throw new LaunchError('Another Layfair took over the build. Run the same command again.');
    }
    putInPlace(name, making);
  } finally {
    rmSync(making, { recursive: true, force: true });
  }
}

function withoutTrace(output) {
  const lines = output.split('\n').filter((line) => !/^\s+at .*[:)]/.test(line));
  return lines.join('\n').trim();
}

function putInPlace(name, making) {
  const place = inProject('dist', name);
  const old = inProject('dist', `.old-${name}-${process.pid}`);
  if (existsSync(place)) renameSync(place, old);
  renameSync(making, place);
  rmSync(old, { recursive: true, force: true });
}

/** Whoever left these was stopped half way: the lock says that nobody is at work now. */
function clearLeftovers() {
  for (const entry of readdirSync(inProject('dist'))) {
    if (!entry.startsWith('.making-') && !entry.startsWith('.old-')) continue;
    rmSync(inProject('dist', entry), { recursive: true, force: true });
  }
}

if (isMain(import.meta.url)) {
  await runLauncher(async () => {
    const names = process.argv.slice(2);
    const unknown = names.filter((name) => !(name in halves));
    if (unknown.length > 0) {
      throw new LaunchError(`'${unknown.join(' ')}' is not something to build: use server or web.`);
    }
    await ensureInstalled('run');
    await ensureBuilt(names.length > 0 ? names : Object.keys(halves));
  });
}
