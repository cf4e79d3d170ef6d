import { existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { buildableProject, outcomeOf, type SmallProject, said } from './small-project.ts';

describe('this project', () => {
  it('builds: the programs', () => {
    expect(inject('buildProblems').server).toBeNull();
  });

  it('builds: the pages', () => {
    expect(inject('buildProblems').web).toBeNull();
  });
});

describe('building', () => {
  let project: SmallProject;
  const at = (...parts: readonly string[]): string => join(project.folder, 'dist', ...parts);
  const program = (): string => readFileSync(at('server', 'server', 'main.js'), 'utf8');
  const madeMs = (half: string): number => statSync(at(half, '.built')).mtimeMs;
  const leftovers = (): string[] => readdirSync(at()).filter((name) => name.startsWith('.'));
  const serveWords = (words: string): void =>
    project.write('src/server/main.ts', `console.log('${words}');\n`);

  beforeAll(async () => {
    project = buildableProject();
    expect(await project.run(['build.mjs'])).toMatchObject({ code: 0, stdout: '' });
  });
  afterAll(() => project.remove());

  it('makes programs and pages, and leaves nothing else behind', () => {
    expect(existsSync(at('server', 'cli', 'main.js'))).toBe(true);
    expect(readFileSync(at('web', 'index.html'), 'utf8')).toContain('One');
    expect(leftovers()).toEqual([]);
  });

  it('does nothing, and says nothing, when nothing has changed', async () => {
    const before = [madeMs('server'), madeMs('web')];
    expect(await project.run(['build.mjs'])).toEqual({ code: 0, stdout: '', stderr: '' });
    expect([madeMs('server'), madeMs('web')]).toEqual(before);
  });

  it('does not make the programs anew for a change in a page', async () => {
    const before = [madeMs('server'), madeMs('web')];
    project.write('web/src/main.ts', `document.title = 'Three';`);
    await project.run(['build.mjs']);
    expect(madeMs('server')).toBe(before[0]);
    expect(madeMs('web')).toBeGreaterThan(before[1]!);
  });

  it('leaves the last good programs in place when the new ones are wrong, and says where', async () => {
    const before = program();
    project.write(
      'src/server/main.ts',
      `const windMps: number = 'strong';\nconsole.log(windMps);\n`,
    );
    const outcome = await project.run(['build.mjs']);
    expect(outcome).toMatchObject({ code: 1, stdout: '' });
    expect(outcome.stderr).toContain('src/server/main.ts(1,7)');
    expect(program()).toBe(before);
    expect(leftovers()).toEqual([]);
  });

  it('is content with one half when only that is asked for', async () => {
    project.write('web/src/main.ts', `import './none.ts';`);
    serveWords('one half');
    expect(await project.run(['build.mjs', 'server'])).toMatchObject({ code: 0 });
    expect(await project.run(['build.mjs', 'web'])).toMatchObject({ code: 1 });
    project.write('web/src/main.ts', `document.title = 'Four';`);
    expect(await project.run(['build.mjs', 'web'])).toMatchObject({ code: 0 });
  });

  it('lets two at once finish, one after the other', async () => {
    serveWords('two at once');
    const outcomes = await Promise.all([project.run(['build.mjs']), project.run(['build.mjs'])]);
    expect(outcomes.map(({ code }) => code)).toEqual([0, 0]);
    const builds = outcomes.filter(({ stderr }) => stderr.includes('Building the programs'));
    expect(builds).toHaveLength(1);
    expect(program()).toContain('two at once');
    expect(leftovers()).toEqual([]);
  });

  it('survives being killed half way: the last good programs stay, the next build clears up', async () => {
    const before = program();
    serveWords('killed');
    const child = project.start(['build.mjs']);
    const ended = outcomeOf(child);
    await said(child, 'Building the programs');
    child.kill('SIGKILL');
    await ended;
    expect(program()).toBe(before);
    expect(leftovers()).toContain('.build.lock');
    expect(await project.run(['build.mjs'])).toMatchObject({ code: 0 });
    expect(program()).toContain('killed');
    expect(leftovers()).toEqual([]);
  });

  it('waits for a living builder, even one that has made nothing yet', async () => {
    serveWords('waited');
    mkdirSync(at(), { recursive: true });
    project.write('dist/.build.lock', JSON.stringify({ pid: process.pid, host: hostname() }));
    const child = project.start(['build.mjs']);
    const ended = outcomeOf(child);
    await said(child, 'Waiting for another Layfair to finish building');
    child.kill();
    await ended;
    expect(program()).not.toContain('waited');
    // The lock is not the waiter's to remove.
    expect(leftovers()).toEqual(['.build.lock']);
  });
});

describe('the commands people type', () => {
  let project: SmallProject;
  beforeAll(() => {
    project = buildableProject();
  });
  afterAll(() => project.remove());

  it('layfair builds the programs alone, and stdout carries the command only', async () => {
    const outcome = await project.run(['layfair.mjs', 'days', 'my job.json', '--json']);
    expect(outcome.stderr).toBe('Building the programs.\n');
    expect(JSON.parse(outcome.stdout)).toMatchObject({ args: ['days', 'my job.json', '--json'] });
    expect(outcome.code).toBe(2);
    expect(existsSync(join(project.folder, 'dist', 'web'))).toBe(false);
  });

  it('layfair under npm reads file names from where the person stands', async () => {
    const outcome = await project.run(['layfair.mjs'], {
      npm_lifecycle_event: 'layfair',
      INIT_CWD: join(project.folder, 'src'),
    });
    expect(JSON.parse(outcome.stdout)).toMatchObject({ cwd: join(project.folder, 'src') });
  });

  it('start builds both and passes its words on', async () => {
    const outcome = await project.run(['start.mjs', '--now', 'then']);
    expect(outcome).toMatchObject({ code: 0, stdout: 'serving --now then\n' });
    expect(existsSync(join(project.folder, 'dist', 'web', 'index.html'))).toBe(true);
  });

  it('test passes its words to the test runner and gives back its verdict', async () => {
    project.write(
      'tests/vitest.config.ts',
      `export default { test: { include: ['**/*.test.ts'] } };`,
    );
    const test = (verdict: boolean): string =>
      `import { expect, it } from 'vitest'; it('holds', () => expect(${verdict}).toBe(true));`;
    project.write('tests/good.test.ts', test(true));
    project.write('tests/bad.test.ts', test(false));
    const good = await project.run(['test.mjs', 'tests/good']);
    expect([good.code, good.stdout.includes('good.test.ts')]).toEqual([0, true]);
    expect(good.stdout).not.toContain('bad.test.ts');
    expect((await project.run(['test.mjs'])).code).toBe(1);
  });
});
