import { execFileSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { inflate } from '@sparticuz/chromium';

export interface BrowserProgram {
  readonly executablePath: string;
  readonly env: Readonly<Record<string, string>>;
}

/**
 * The browser that comes from the package registry, unpacked once beside the other packages.
 * Each process unpacks into a folder of its own and renames it into place, so that two at once never see half a file.
 */
export async function bundledBrowser(): Promise<BrowserProgram> {
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new Error(
      `The bundled browser is for Linux on x64; this is ${process.platform} on ${process.arch}. ` +
        'Set CHROMIUM to the path of an installed Chromium to run the page tests.',
    );
  }
  const packageFolder = folderOfPackage();
  const { version } = JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8')) as {
    version: string;
  };
  const home = join(packageFolder, '..', '..', '.layfair-browser', version);
  if (!existsSync(home)) await unpack(join(packageFolder, 'bin'), home);
  const executablePath = join(home, 'chromium');
  return {
    executablePath,
    env: {
      FONTCONFIG_FILE: join(home, 'fonts.conf'),
      ...(lacksLibraries(executablePath)
        ? {
            LD_LIBRARY_PATH: [join(home, 'al2023', 'lib'), process.env['LD_LIBRARY_PATH']]
              .filter(Boolean)
              .join(':'),
          }
        : {}),
    },
  };
}

function folderOfPackage(): string {
  // The package exports no package.json, so its folder is found from its entry file.
  const entry = createRequire(import.meta.url).resolve('@sparticuz/chromium');
  let folder = dirname(entry);
  while (!existsSync(join(folder, 'package.json'))) folder = dirname(folder);
  return folder;
}

async function unpack(archives: string, home: string): Promise<void> {
  const making = `${home}.making-${process.pid}`;
  rmSync(making, { recursive: true, force: true });
  mkdirSync(making, { recursive: true });
  const before = process.env['TMPDIR'];
  // The package unpacks into the system's folder for temporary files, whichever that is when asked.
  process.env['TMPDIR'] = making;
  try {
    for (const name of ['chromium.br', 'fonts.tar.br', 'swiftshader.tar.br', 'al2023.tar.br']) {
      await inflate(join(archives, name));
    }
  } finally {
    if (before === undefined) delete process.env['TMPDIR'];
    else process.env['TMPDIR'] = before;
  }
  // The package lets only its unpacker run the program; whoever runs the tests may be someone else.
  chmodSync(join(making, 'chromium'), 0o755);
  writeFileSync(join(making, 'fonts.conf'), fontsConfig(home));
  try {
    renameSync(making, home);
  } catch (error) {
    rmSync(making, { recursive: true, force: true });
    if (!existsSync(home)) throw error;
  }
}

/** The bundled face for text first; the system's own for signs that it lacks. */
function fontsConfig(home: string): string {
  const folders = [join(home, 'fonts', 'fonts'), '/usr/share/fonts', '/usr/local/share/fonts'];
  return [
    '<?xml version="1.0"?>',
    '<!DOCTYPE fontconfig SYSTEM "fonts.dtd">',
    '<fontconfig>',
    ...folders.map((folder) => `  <dir>${folder}</dir>`),
    `  <cachedir>${join(home, 'fonts-cache')}</cachedir>`,
    '  <alias><family>sans-serif</family><prefer><family>Open Sans</family></prefer></alias>',
    '  <alias><family>system-ui</family><prefer><family>Open Sans</family></prefer></alias>',
    '</fontconfig>',
    '',
  ].join('\n');
}

/** A bare system lacks the security libraries that the browser links to; the package brings them. */
function lacksLibraries(executablePath: string): boolean {
  try {
    return execFileSync('ldd', [executablePath], { encoding: 'utf8' }).includes('not found');
  } catch {
    return true;
  }
}
