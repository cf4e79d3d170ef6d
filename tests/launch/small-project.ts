import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

export interface Outcome {
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface SmallProject {
  readonly folder: string;
  write(path: string, text: string): void;
  /** Starts a launcher of the project, or npm when the first word says so. */
  start(words: readonly string[], env?: Readonly<Record<string, string>>): ChildProcess;
  run(words: readonly string[], env?: Readonly<Record<string, string>>): Promise<Outcome>;
  remove(): void;
}

/** A project of a few lines with the real launchers, in a folder of its own. */
export function smallProject(files: Readonly<Record<string, string>>): SmallProject {
  const folder = mkdtempSync(join(tmpdir(), 'layfair-launch-'));
  const write = (path: string, text: string): void => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  };
  cpSync(join(root, 'src', 'launch'), join(folder, 'src', 'launch'), { recursive: true });
  for (const [path, text] of Object.entries(files)) write(path, text);

  const start: SmallProject['start'] = (words, env = {}) => {
    const [command, ...args] =
      words[0] === 'npm'
        ? words
        : [process.execPath, join('src', 'launch', words[0]!), ...words.slice(1)];
    return spawn(command!, args, { cwd: folder, env: { ...process.env, ...env } });
  };
  return {
    folder,
    write,
    start,
    run: (words, env) => outcomeOf(start(words, env)),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** With the real packages, the real settings of the compilers, one program, one command and one page. */
export function buildableProject(): SmallProject {
  const project = smallProject({
    'src/server/main.ts': `console.log('serving', process.argv.slice(2).join(' '));\n`,
    'src/cli/main.ts': [
      `console.log(JSON.stringify({ args: process.argv.slice(2), cwd: process.cwd() }));`,
      `process.exitCode = 2;`,
    ].join('\n'),
    'web/index.html': `<!doctype html><title>One</title><script type="module" src="/src/main.ts"></script>`,
    'web/src/main.ts': `document.title = 'Two';`,
  });
  for (const path of [
    'package.json',
    'package-lock.json',
    'tsconfig.json',
    'src/tsconfig.json',
    'web/tsconfig.json',
    'web/vite.config.ts',
  ]) {
    cpSync(join(root, path), join(project.folder, path));
  }
  symlinkSync(join(root, 'node_modules'), join(project.folder, 'node_modules'), 'dir');
  return project;
}

export function outcomeOf(child: ChildProcess): Promise<Outcome> {
  let stdout = '';
  let stderr = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    stdout += text;
  });
  child.stderr?.setEncoding('utf8').on('data', (text: string) => {
    stderr += text;
  });
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code) => resolve({ code, stdout, stderr }));
  });
}

/** Waits until the program has said this on stderr. */
export function said(child: ChildProcess, words: string): Promise<void> {
  let stderr = '';
  return new Promise((resolve, reject) => {
    child.once('close', () => reject(new Error(`It ended without saying '${words}': ${stderr}`)));
    child.stderr?.on('data', (text: Buffer) => {
      stderr += text.toString();
      if (stderr.includes(words)) resolve();
    });
  });
}
