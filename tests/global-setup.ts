import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { TestProject } from 'vitest/node';

/** Why a half of the build is not there, or null when it is. */
export interface BuildProblems {
  readonly server: string | null;
  readonly web: string | null;
}

const LINES_SHOWN = 12;

declare module 'vitest' {
  interface ProvidedContext {
    buildProblems: BuildProblems;
  }
}

/**
 * Builds what is out of date once, before any test. A failed build does not keep the tests of single rooms
 * from running; those that need the built programs or pages fail with the compiler's words.
 */
export default function setup(project: TestProject): void {
  const buildProblems = { server: problemOf('server'), web: problemOf('web') };
  for (const problem of Object.values(buildProblems)) {
    if (problem !== null) console.error(problem.split('\n').slice(0, LINES_SHOWN).join('\n'));
  }
  project.provide('buildProblems', buildProblems);
}

function problemOf(half: 'server' | 'web'): string | null {
  const root = fileURLToPath(new URL('..', import.meta.url));
  const build = spawnSync(process.execPath, ['src/launch/build.mjs', half], {
    cwd: root,
    encoding: 'utf8',
  });
  return build.status === 0 ? null : build.stderr.trim() || `build ended with ${build.status}`;
}
