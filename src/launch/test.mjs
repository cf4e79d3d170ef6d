// npm test: fetch what the tests need too, then run them; further words go to the test runner.
import './node-version.mjs';
import { runInForeground } from './child.mjs';
import { ensureInstalled } from './install.mjs';
import { inProject, runLauncher } from './project.mjs';

await runLauncher(() => ensureInstalled('all'));
process.exitCode = await runInForeground(inProject('node_modules', 'vitest', 'vitest.mjs'), [
  'run',
  '--config',
  inProject('tests', 'vitest.config.ts'),
  ...process.argv.slice(2),
]);
