import { spawn } from 'node:child_process';
import { stripVTControlCharacters } from 'node:util';
import { root, say } from './project.mjs';

const REMINDER_MS = 10_000;

/**
 * Runs a program quietly in the project folder and keeps what it printed.
 * While it works, a reminder every ten seconds shows that nothing hangs.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {{ doing?: string, shell?: boolean }} [options] doing: what to say in the reminder
 * @returns {Promise<{ code: number, output: string }>} code is 1 when it was stopped by a signal
 */
export function runQuietly(command, args, { doing, shell = false } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      cwd: root,
      stdio: ['ignore', 'pipe', 'pipe'],
      shell,
    });
    let output = '';
    const keep = (chunk) => {
      output += chunk;
    };
    child.stdout.setEncoding('utf8').on('data', keep);
    child.stderr.setEncoding('utf8').on('data', keep);

    const startedMs = Date.now();
    const reminder = setInterval(() => {
      if (doing) say(`  ${doing}: ${Math.round((Date.now() - startedMs) / 1000)} s so far`);
    }, REMINDER_MS);
    const stopChild = () => child.kill();
    process.once('exit', stopChild);
    const finish = () => {
      clearInterval(reminder);
      process.off('exit', stopChild);
    };

    child.once('error', (error) => {
      finish();
      reject(error);
    });
    child.once('close', (code) => {
      finish();
      // It may end up in a file, and not every program asks whether colours are wanted.
      resolve({ code: code ?? 1, output: stripVTControlCharacters(output) });
    });
  });
}

/**
 * Runs a node script in the foreground, sharing this terminal.
 * @param {string} script
 * @param {readonly string[]} args
 * @returns {Promise<number>} its exit code, or 128 + 2 and so on when a signal ended it
 */
export function runInForeground(script, args) {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [script, ...args], { cwd: root, stdio: 'inherit' });
    const forward = (signal) => child.kill(signal);
    const signals = ['SIGINT', 'SIGTERM', 'SIGHUP'];
    for (const signal of signals) process.on(signal, forward);
    child.once('error', reject);
    child.once('close', (code, signal) => {
      for (const name of signals) process.off(name, forward);
      resolve(code ?? 128 + ({ SIGHUP: 1, SIGINT: 2, SIGTERM: 15 }[signal] ?? 9));
    });
  });
}
