// npm start: fetch what is missing, build what is out of date, serve.
import './node-version.mjs';
import { pathToFileURL } from 'node:url';
import { ensureBuilt } from './build.mjs';
import { ensureInstalled } from './install.mjs';
import { inProject, runLauncher } from './project.mjs';

await runLauncher(async () => {
  await ensureInstalled('run');
  await ensureBuilt(['server', 'web']);
});
const main = inProject('dist', 'server', 'server', 'main.js');
process.argv[1] = main;
await import(pathToFileURL(main).href);
