import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: new URL('..', import.meta.url).pathname,
  test: {
    include: ['tests/**/*.test.ts'],
    setupFiles: ['tests/random-seed.ts'],
    globalSetup: ['tests/global-setup.ts'],
    reporters: ['default', './tests/closing-line-reporter.ts'],
    testTimeout: 30_000,
    hookTimeout: 120_000,
    // As many files at once as there are cores; left alone, one core would stay idle of two.
    maxWorkers: availableParallelism(),
    // Nothing of ours keeps state between files, and loading all rooms anew for each costs a minute.
    isolate: false,
  },
});
