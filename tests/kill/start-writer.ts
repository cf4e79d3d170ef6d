import { type ChildProcess, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export interface Writer {
  readonly child: ChildProcess;
  /** Whole lines printed so far; a line cut off by the kill is not among them. */
  readonly lines: () => readonly string[];
  /** Resolves once the child has printed its first line, or false when it ended before. */
  readonly started: Promise<boolean>;
  /** Resolves when the process is gone and its pipe is read to the end. */
  readonly gone: Promise<{ readonly signal: NodeJS.Signals | null; readonly errors: string }>;
}

/** Starts writer.ts in a process of its own. */
export function startWriter(file: string, jobId: string, limit: number): Writer {
  const script = fileURLToPath(new URL('./writer.ts', import.meta.url));
  const child = spawn(process.execPath, ['--import', 'tsx', script, file, jobId, String(limit)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let text = '';
  let errors = '';
  const lines = () => text.split('\n').slice(0, -1);
  let tellStarted: (started: boolean) => void;
  const started = new Promise<boolean>((resolve) => {
    tellStarted = resolve;
  });
  child.stdout.setEncoding('utf8').on('data', (chunk: string) => {
    text += chunk;
    if (lines().length > 0) tellStarted(true);
  });
  child.stderr.setEncoding('utf8').on('data', (chunk: string) => {
    errors += chunk;
  });
  const gone = new Promise<{ signal: NodeJS.Signals | null; errors: string }>((resolve) => {
    child.on('close', (_code, signal) => {
      tellStarted(false);
      resolve({ signal, errors });
    });
  });
  return { child, lines, started, gone };
}
