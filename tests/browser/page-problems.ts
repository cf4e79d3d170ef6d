import type { Page } from 'playwright-core';

export interface PageProblems {
  /** What went wrong so far, a sentence each, in order. */
  readonly list: readonly string[];
  /** Throws, naming every problem, unless there was none. Call it at the end of each page test. */
  assertNone(): void;
}

/**
 * Collects everything that a correct page never does: console errors and warnings, uncaught errors,
 * failed requests and answers of 400 and above. Call it before the first `page.goto`.
 * @param expected problems that this very test provokes on purpose (a line that matches is left out)
 */
export function watchPage(page: Page, expected: readonly RegExp[] = []): PageProblems {
  const list: string[] = [];
  const note = (problem: string): void => {
    if (!expected.some((pattern) => pattern.test(problem))) list.push(problem);
  };
  page.on('console', (message) => {
    const type = message.type();
    if (type === 'error' || type === 'warning') note(`console ${type}: ${message.text()}`);
  });
  page.on('pageerror', (error) => note(`uncaught: ${error.stack ?? error.message}`));
  page.on('crash', () => note('the page crashed'));
  page.on('requestfailed', (request) => {
    note(`request failed: ${request.method()} ${request.url()} (${request.failure()?.errorText})`);
  });
  page.on('response', (response) => {
    if (response.status() < 400) return;
    note(`answer ${response.status()}: ${response.request().method()} ${response.url()}`);
  });
  return {
    list,
    assertNone() {
      if (list.length === 0) return;
      throw new Error(`The page had ${list.length} problem(s):\n  ${list.join('\n  ')}`);
    },
  };
}
