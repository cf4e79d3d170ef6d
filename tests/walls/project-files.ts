import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));

/**
 * The project's own files, with '/', without what is built or fetched: those in version control and the new ones
 * that would be. Null outside a git work tree (an unpacked archive).
 */
export function projectFiles(): readonly string[] | null {
  if (!existsSync(join(root, '.git'))) return null;
  const listed = execFileSync(
    'git',
    ['ls-files', '--cached', '--others', '--exclude-standard', '-z'],
    {
      cwd: root,
      encoding: 'utf8',
      maxBuffer: 64 * 1024 * 1024,
    },
  );
  const paths = [...new Set(listed.split('\0'))].filter((path) => path !== '');
  return paths.filter(
    (path) => existsSync(join(root, path)) && statSync(join(root, path)).isFile(),
  );
}

export function readProjectFile(path: string): string {
  return readFileSync(join(root, path), 'utf8');
}
