import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startServer } from './start-server.ts';

describe('starting a server for a test', () => {
  let folder: string;
  const program = (text: string): string => {
    const path = join(folder, `${text.length}.mjs`);
    writeFileSync(path, text);
    return path;
  };
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'layfair-harness-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const serving = `
    import { createServer } from 'node:http';
    const server = createServer((_, response) => response.end(JSON.stringify({
      data: process.env.LAYFAIR_DATA, extra: process.env.EXTRA, args: process.argv.slice(2) })));
    server.listen(Number(process.env.PORT), '127.0.0.1', () =>
      console.log('Layfair is at http://127.0.0.1:' + server.address().port));
    process.on('SIGTERM', () => process.exit(7));`;

  it('gives its address, its own data folder and what the test adds, and ends it', async () => {
    const server = await startServer({
      program: program(serving),
      env: { EXTRA: 'more' },
      args: ['--x'],
    });
    const answer: unknown = await (await fetch(server.url)).json();
    expect(answer).toEqual({ data: server.dataFolder, extra: 'more', args: ['--x'] });
    expect(existsSync(server.dataFolder)).toBe(true);
    expect(await server.stop()).toBe(7);
    expect(existsSync(server.dataFolder)).toBe(false);
    await expect(fetch(server.url)).rejects.toThrow();
  });

  it('keeps a data folder that the test brought', async () => {
    const server = await startServer({ program: program(serving), dataFolder: folder });
    await server.stop();
    expect(existsSync(folder)).toBe(true);
  });

  it('says what a server printed that ended at once', async () => {
    const ending = program(`console.error('port 80 is taken'); process.exit(3);`);
    await expect(startServer({ program: ending })).rejects.toThrow(/code 3.*\n.*port 80 is taken/);
  });

  it('does not wait for ever for an address', async () => {
    const silent = program(`console.log('thinking'); setInterval(() => {}, 1000);`);
    await expect(startServer({ program: silent, patienceMs: 400 })).rejects.toThrow(
      /No address from the server in 400 ms:\nthinking/,
    );
  });
});
