// npm run -s layfair -- ...: the command line, in this same process.
import './node-version.mjs';
import { pathToFileURL } from 'node:url';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';
import { inProject, runLauncher } from './project.mjs';

await runLauncher(async () => {
  await ensureInstalled('run');
  await ensureBuilt(['server']);
});
// npm moves to the project folder; file names on the command line are meant from where the person is.
const from = process.env.INIT_CWD;
if (from && process.env.npm_lifecycle_event === 'layfair') process.chdir(from);

const main = inProject('dist', 'server', 'cli', 'main.js');
process.argv[1] = main;
await import(pathToFileURL(main).href);
