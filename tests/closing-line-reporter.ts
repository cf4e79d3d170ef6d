import type { Reporter, TestModule } from 'vitest/node';

/** Prints the one closing line that says how many tests ran: 'N passed, N failed, N skipped'. */
export default class ClosingLineReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    const count = { passed: 0, failed: 0, skipped: 0, pending: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) count[test.result().state] += 1;
      // A file that could not even be loaded has no tests to count; it still is a failure.
      if (module.errors().length > 0) count.failed += 1;
    }
    const failed = count.failed + unhandledErrors.length;
    const skipped = count.skipped + count.pending;
    console.log(`\n${count.passed} passed, ${failed} failed, ${skipped} skipped`);
  }
}
