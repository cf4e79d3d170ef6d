import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { launchBrowser } from './browser.ts';
import { type RunningServer, type ServerOptions, startServer } from './start-server.ts';

/** One server and one browser for all page tests of a suite; there from its first test to its last. */
export interface PageSetup {
  readonly browser: Browser;
  readonly server: RunningServer;
  /** The server's address, without a slash at the end. */
  readonly url: string;
}

/** Call it inside `describe`: it starts both before the suite's tests and ends both after them. */
export function pageSetup(options: ServerOptions = {}): PageSetup {
  let browser: Browser | undefined;
  let server: RunningServer | undefined;
  beforeAll(async () => {
    server = await startServer(options);
    browser = await launchBrowser();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.stop();
  });
  const started = <T>(part: T | undefined): T => {
    if (part === undefined)
      throw new Error('the page set-up is used outside the tests of its suite');
    return part;
  };
  return {
    get browser() {
      return started(browser);
    },
    get server() {
      return started(server);
    },
    get url() {
      return started(server).url;
    },
  };
}
