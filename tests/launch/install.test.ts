import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type SmallProject, smallProject } from './small-project.ts';

// Two parts that lie in the project itself, so that npm needs no network for them.
const lock = {
  name: 'small',
  version: '1.0.0',
  lockfileVersion: 3,
  requires: true,
  packages: {
    '': {
      name: 'small',
      version: '1.0.0',
      dependencies: { 'for-running': 'file:parts/for-running' },
      devDependencies: { 'for-tests': 'file:parts/for-tests' },
    },
    'node_modules/for-running': { resolved: 'parts/for-running', link: true },
    'node_modules/for-tests': { resolved: 'parts/for-tests', link: true, dev: true },
    'parts/for-running': { version: '1.0.0' },
    'parts/for-tests': { version: '1.0.0', dev: true },
  },
};

/** npm with the network switched off. */
const OFFLINE = { npm_config_offline: 'true' };

describe('installing', () => {
  let project: SmallProject;
  const has = (name: string): boolean => existsSync(join(project.folder, 'node_modules', name));
  const marker = '.layfair-installed.json';

  beforeEach(() => {
    project = smallProject({
      'package.json': JSON.stringify({ ...lock.packages[''], private: true, type: 'module' }),
      'package-lock.json': JSON.stringify(lock),
      'parts/for-running/package.json': `{ "name": "for-running", "version": "1.0.0" }`,
      'parts/for-tests/package.json': `{ "name": "for-tests", "version": "1.0.0" }`,
    });
  });
  afterEach(() => project.remove());

  it('leaves out what only tests need, keeps stdout free and says that this happens once', async () => {
    const outcome = await project.run(['install.mjs', 'run'], OFFLINE);
    expect(outcome).toMatchObject({ code: 0, stdout: '' });
    expect(outcome.stderr).toContain('This happens once');
    expect([has('for-running'), has('for-tests')]).toEqual([true, false]);
  });

  it('does nothing, and says nothing, when all is there', async () => {
    await project.run(['install.mjs', 'run'], OFFLINE);
    writeFileSync(join(project.folder, 'node_modules', 'mine'), '');
    expect(await project.run(['install.mjs', 'run'])).toEqual({ code: 0, stdout: '', stderr: '' });
    expect(has('mine')).toBe(true);
  });

  it('brings the test parts for the tests, even where the system says production', async () => {
    await project.run(['install.mjs', 'run'], OFFLINE);
    await project.run(['install.mjs', 'all'], { ...OFFLINE, NODE_ENV: 'production' });
    expect(has('for-tests')).toBe(true);
  });

  it('does not throw the test parts away again for npm start', async () => {
    await project.run(['install.mjs', 'all'], OFFLINE);
    const before = readFileSync(join(project.folder, 'node_modules', marker), 'utf8');
    await project.run(['install.mjs', 'run'], OFFLINE);
    expect(has('for-tests')).toBe(true);
    expect(readFileSync(join(project.folder, 'node_modules', marker), 'utf8')).toBe(before);
  });

  it('fetches again when the list of parts has changed', async () => {
    await project.run(['install.mjs', 'run'], OFFLINE);
    writeFileSync(join(project.folder, 'node_modules', 'mine'), '');
    project.write('package-lock.json', JSON.stringify(lock, null, 1));
    rmSync(join(project.folder, 'node_modules', '.package-lock.json'));
    await project.run(['install.mjs', 'run'], OFFLINE);
    expect(has('mine')).toBe(false);
  });

  it('takes what npm itself has put there', async () => {
    await project.run(['npm', 'ci', '--no-audit', '--no-fund'], OFFLINE);
    expect(has(marker)).toBe(false);
    expect(await project.run(['install.mjs', 'all'])).toEqual({ code: 0, stdout: '', stderr: '' });
    expect(has(marker)).toBe(true);
  });

  it('does not take it when a part is missing', async () => {
    await project.run(['npm', 'ci', '--omit=dev', '--no-audit', '--no-fund'], OFFLINE);
    const outcome = await project.run(['install.mjs', 'all'], OFFLINE);
    expect(outcome.stderr).toContain('Fetching');
    expect(has('for-tests')).toBe(true);
  });

  it('fails with one plain sentence when the registry cannot be reached, and is not taken for done', async () => {
    const far = structuredClone(lock) as unknown as {
      packages: Record<string, Record<string, unknown>>;
    };
    far.packages['']!['dependencies'] = { 'far-away': '1.0.0' };
    far.packages['node_modules/far-away'] = {
      version: '1.0.0',
      resolved: 'http://127.0.0.1:9/far-away-1.0.0.tgz',
    };
    project.write('package-lock.json', JSON.stringify(far));
    project.write(
      'package.json',
      JSON.stringify({ ...far.packages[''], private: true, type: 'module' }),
    );
    const outcome = await project.run(['install.mjs', 'run']);
    expect(outcome).toMatchObject({ code: 1, stdout: '' });
    expect(outcome.stderr).toContain('Connect to the internet and run the same command again');
    expect(outcome.stderr).not.toMatch(/npm error|^\s+at /m);
    expect(has(marker)).toBe(false);
  });

  it('passes on what npm says when something else is wrong', async () => {
    project.write('package-lock.json', '{ "lockfileVersion": 3, "packages": { "": {} } }');
    const outcome = await project.run(['install.mjs', 'run'], OFFLINE);
    expect(outcome.code).toBe(1);
    expect(outcome.stderr).toContain('npm said:');
  });

  it('refuses another word', async () => {
    const outcome = await project.run(['install.mjs', 'some']);
    expect(outcome).toMatchObject({ code: 1 });
    expect(outcome.stderr).toContain("'some' is not something to install: use run or all.");
  });
});

describe('an old Node.js', () => {
  let project: SmallProject;
  beforeEach(() => {
    project = smallProject({});
  });
  afterEach(() => project.remove());

  const pretending = (version: string): Record<string, string> => {
    const code = `Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '${version}' } })`;
    return { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(code)}` };
  };

  it.each(['start.mjs', 'test.mjs', 'build.mjs', 'layfair.mjs', 'install.mjs'])(
    'is refused by %s in a sentence, before anything else',
    async (launcher) => {
      const outcome = await project.run([launcher], pretending('20.18.1'));
      expect(outcome).toEqual({
        code: 1,
        stdout: '',
        stderr:
          'Layfair needs Node.js 20.19 or newer; this is Node.js 20.18.1. ' +
          'Install a newer Node.js and run the same command again.\n',
      });
    },
  );

  it.each(['20.19.0', '22.0.0', '24.11.1'])('is not %s', async (version) => {
    const outcome = await project.run(['install.mjs', 'nonsense'], pretending(version));
    expect(outcome.stderr).toContain('nonsense');
  });

  it('is told apart by the same number that package.json names', () => {
    const { engines } = JSON.parse(readFileSync('package.json', 'utf8')) as {
      engines: { node: string };
    };
    expect(engines.node).toBe('>=20.19');
  });
});
