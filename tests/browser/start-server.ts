import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { inject } from 'vitest';

const root = fileURLToPath(new URL('../..', import.meta.url));
const ADDRESS_LINE = /Layfair is at (http:\/\/127\.0\.0\.1:\d+)/;

export interface ServerOptions {
  /** Where it keeps its data; without it a fresh folder, removed at stop. */
  readonly dataFolder?: string;
  /** Further or changed environment variables. */
  readonly env?: Readonly<Record<string, string>>;
  readonly args?: readonly string[];
  /** How long to wait for the address. */
  readonly patienceMs?: number;
  /** Set by tests of this harness only. */
  readonly program?: string;
}

export interface RunningServer {
  /** Such as http://127.0.0.1:41234, without a slash at the end. */
  readonly url: string;
  readonly dataFolder: string;
  /** All it printed so far. */
  output(): string;
  /** Ends it and waits until it is gone; gives back its exit code (null when it had to be killed). */
  stop(): Promise<number | null>;
}

/** Starts the built server as a person would get it, on a free port, and waits until it says its address. */
export async function startServer(options: ServerOptions = {}): Promise<RunningServer> {
  const program = options.program ?? builtServer();
  const dataFolder = options.dataFolder ?? mkdtempSync(join(tmpdir(), 'layfair-test-'));
  const child = spawn(process.execPath, [program, ...(options.args ?? [])], {
    cwd: root,
    env: { ...process.env, PORT: '0', LAYFAIR_DATA: dataFolder, ...options.env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8').on('data', (text: string) => {
      output += text;
    });
  }
  const killWithTests = (): void => void child.kill('SIGKILL');
  process.once('exit', killWithTests);
  const stop = async (): Promise<number | null> => {
    const code = await end(child);
    process.off('exit', killWithTests);
    if (options.dataFolder === undefined) rmSync(dataFolder, { recursive: true, force: true });
    return code;
  };
  try {
    const url = await addressOf(child, () => output, options.patienceMs ?? 20_000);
    return { url, dataFolder, output: () => output, stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

function builtServer(): string {
  const problem = inject('buildProblems').server;
  if (problem !== null) throw new Error(`There is no server to test: ${problem}`);
  return join(root, 'dist', 'server', 'server', 'main.js');
}

function addressOf(child: ChildProcess, output: () => string, patienceMs: number): Promise<string> {
  return new Promise((resolve, reject) => {
    const give = (error: Error | null, url = ''): void => {
      clearTimeout(timer);
      child.stdout?.off('data', look);
      child.off('exit', onExit);
      child.off('error', give);
      if (error === null) resolve(url);
      else reject(error);
    };
    const look = (): void => {
      const url = ADDRESS_LINE.exec(output())?.[1];
      if (url !== undefined) give(null, url);
    };
    const onExit = (code: number | null): void =>
      give(new Error(`The server ended (code ${code}) before it gave its address:\n${output()}`));
    const timer = setTimeout(
      () => give(new Error(`No address from the server in ${patienceMs} ms:\n${output()}`)),
      patienceMs,
    );
    child.stdout?.on('data', look);
    child.once('exit', onExit);
    child.once('error', give);
  });
}

function end(child: ChildProcess): Promise<number | null> {
  if (child.exitCode !== null || child.signalCode !== null) return Promise.resolve(child.exitCode);
  return new Promise((resolve) => {
    const lastResort = setTimeout(() => child.kill('SIGKILL'), 5_000);
    child.once('exit', (code) => {
      clearTimeout(lastResort);
      resolve(code);
    });
    child.kill('SIGTERM');
  });
}
