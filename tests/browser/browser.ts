import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';
import { type BrowserProgram, bundledBrowser } from './bundled-browser.ts';

const ARGS = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
  '--font-render-hinting=none',
];

/**
 * A headless browser: the one that CHROMIUM names, else `chromium` on the PATH, else the one from the package registry.
 * Give each test a page of its own from `browser.newContext({ timezoneId, locale })`, and close the browser at the end.
 */
export async function launchBrowser(): Promise<Browser> {
  const program = systemBrowser() ?? (await bundledBrowser());
  const isRoot = process.getuid?.() === 0;
  try {
    return await launch(program, !isRoot);
  } catch (error) {
    // Some systems forbid the sandbox to ordinary users. Only our own pages on this machine are ever opened.
    if (isRoot || !/sandbox/i.test(String(error))) throw error;
    return await launch(program, false);
  }
}

function launch(program: BrowserProgram, sandbox: boolean): Promise<Browser> {
  return chromium.launch({
    executablePath: program.executablePath,
    args: ARGS,
    chromiumSandbox: sandbox,
    env: { ...withoutUndefined(process.env), ...program.env },
  });
}

function systemBrowser(): BrowserProgram | null {
  const named = process.env['CHROMIUM'];
  if (named) return { executablePath: named, env: {} };
  for (const folder of (process.env['PATH'] ?? '').split(delimiter)) {
    const path = join(folder, 'chromium');
    if (folder !== '' && isExecutable(path)) return { executablePath: path, env: {} };
  }
  return null;
}

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

function withoutUndefined(env: NodeJS.ProcessEnv): Record<string, string> {
  const pairs = Object.entries(env).filter(
    (pair): pair is [string, string] => pair[1] !== undefined,
  );
  return Object.fromEntries(pairs);
}
