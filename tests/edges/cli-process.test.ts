import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { daysAnswerSchema, errorBodySchema } from '../../src/contract/index.ts';
import { demoJob, REAL_JOB, root } from '../fixtures/cli/run-cli.ts';

const program = join(root, 'dist', 'server', 'cli', 'main.js');
let folder = '';
beforeAll(() => {
  const problem = inject('buildProblems').server;
  if (problem !== null) throw new Error(`There is no program to test: ${problem}`);
  folder = mkdtempSync(join(tmpdir(), 'layfair-process-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function layfair(...args: readonly string[]): SpawnSyncReturns<string> {
  const { LAYFAIR_FEED: _a, LAYFAIR_FEED_KEY: _b, LAYFAIR_FEED_HOST: _c, ...env } = process.env;
  return spawnSync(process.execPath, [program, ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...env, LAYFAIR_DATA: join(folder, 'data') },
  });
}

describe('the command line as a process of its own', () => {
  it('answers on stdout with exit code 0', () => {
    const { status, stdout, stderr } = layfair('days', demoJob('boat-store'), '--quick', '--json');
    expect([status, stderr]).toEqual([0, '']);
    expect(daysAnswerSchema.parse(JSON.parse(stdout)).days.length).toBeGreaterThan(5);
  });

  it('ends with 2 and a sentence on stderr where the input is wrong, and writes nothing', () => {
    const { status, stdout, stderr } = layfair(
      'work',
      demoJob('boat-store'),
      '--day',
      '2026-02-30',
    );
    expect([status, stdout]).toEqual([2, '']);
    expect(stderr).toBe(
      "--day is '2026-02-30'; it must be a date that exists, such as 2026-05-14.\n",
    );
    expect(readdirSync(folder)).toEqual([]);
  });

  it('ends with 1 where there is no forecast to answer from', () => {
    const { status, stdout, stderr } = layfair('work', REAL_JOB, '--day', '2099-06-09', '--json');
    expect([status, stdout]).toEqual([1, '']);
    expect(errorBodySchema.parse(JSON.parse(stderr)).error.code).toBe('no-forecast');
  });

  it('ends quietly when the reader stops reading', () => {
    const script = `"${process.execPath}" "${program}" work "${demoJob('net-hall')}" --day 2026-05-14 --json | head -c 10`;
    const { status, stderr } = spawnSync('sh', ['-c', script], { encoding: 'utf8' });
    expect([status, stderr]).toEqual([0, '']);
  });
});
