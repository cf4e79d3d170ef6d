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
import { pathToFileURL } from 'node:url';

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
  const { folder: packageFolder, version } = thePackage();
  const home = join(packageFolder, '..', '..', '.layfair-browser', version);
  if (!existsSync(home)) await unpack(packageFolder, home);
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

/** The package exports no package.json, so its folder is found from its entry file. */
function thePackage(): { folder: string; version: string } {
  const name = '@sparticuz/chromium';
  let folder = dirname(createRequire(import.meta.url).resolve(name));
  for (;;) {
    const file = join(folder, 'package.json');
    // Its build folders hold small package.json files of their own.
    const found = existsSync(file)
      ? (JSON.parse(readFileSync(file, 'utf8')) as Partial<Record<string, string>>)
      : {};
    if (found['name'] === name && found['version'] !== undefined)
      return { folder, version: found['version'] };
    folder = dirname(folder);
  }
}

/** The package's own unpacker; versions that run on Node 20 do not name it in their exports. */
async function inflater(packageFolder: string): Promise<(archive: string) => Promise<string>> {
  const file = join(packageFolder, 'build', 'esm', 'lambdafs.js');
  const { inflate } = (await import(pathToFileURL(file).href)) as {
    inflate: (archive: string) => Promise<string>;
  };
  return inflate;
}

async function unpack(packageFolder: string, home: string): Promise<void> {
  const inflate = await inflater(packageFolder);
  const making = `${home}.making-${process.pid}`;
  rmSync(making, { recursive: true, force: true });
  mkdirSync(making, { recursive: true });
  const before = process.env['TMPDIR'];
  // The package unpacks into the system's folder for temporary files, whichever that is when asked.
  process.env['TMPDIR'] = making;
  try {
    for (const name of ['chromium.br', 'fonts.tar.br', 'swiftshader.tar.br', 'al2023.tar.br']) {
      await inflate(join(packageFolder, 'bin', name));
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
