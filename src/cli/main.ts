import { join } from 'node:path';
import { projectRoot } from '../store/index.ts';
import { systemNowMs } from '../time/index.ts';
import { runCli } from './program.ts';

// Whoever reads the answer may stop early, as `head` does.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit();
  throw error;
});
const root = projectRoot(import.meta.dirname);
process.exitCode = await runCli(process.argv.slice(2), {
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  env: process.env,
  onInterrupt: (heard) => {
    // Once: a second Ctrl-C ends at once.
    process.once('SIGINT', heard);
    return () => process.off('SIGINT', heard);
  },
  systemNowMs,
  dataDir: join(root, 'data'),
  keepDir: join(process.env['LAYFAIR_DATA'] ?? join(root, '.layfair'), 'forecasts'),
});
