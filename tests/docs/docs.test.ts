import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { root } from '../walls/project-files.ts';
import { offersOf, undocumented, unkept } from './check-docs.ts';

function textsUnder(folder: string, wanted: RegExp): Record<string, string> {
  const texts: Record<string, string> = {};
  if (!existsSync(join(root, folder))) return texts;
  for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) Object.assign(texts, textsUnder(path, wanted));
    else if (wanted.test(path)) texts[path] = readFileSync(join(root, path), 'utf8');
  }
  return texts;
}

function textsNamed(...names: readonly string[]): Record<string, string> {
  const present = names.filter((name) => existsSync(join(root, name)));
  return Object.fromEntries(present.map((name) => [name, readFileSync(join(root, name), 'utf8')]));
}

describe('the docs and the code agree', () => {
  const harness = {
    ...textsUnder('tests/browser', /(?<!\.test)\.ts$/),
    ...textsUnder('tests/bench', /\.ts$/),
    ...textsUnder('tests/kill', /\.ts$/),
    ...textsNamed('tests/random-seed.ts'),
  };
  const code = textsUnder('src', /\.(ts|mjs)$/);
  const offers = offersOf({ ...code, ...harness });
  const forUsers = { ...textsNamed('README.md'), ...textsUnder('docs', /\.md$/) };
  const forAll = { ...forUsers, ...textsNamed('DEVELOPERS.md') };
  const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    scripts: Record<string, string>;
  };

  it('there is something to look at: commands, flags and settings are found in the code', () => {
    expect(offers.commands).toEqual(expect.arrayContaining(['days', 'work', 'clock']));
    expect(offers.flags).toEqual(expect.arrayContaining(['--weather', '--now', '--json']));
    expect(offers.settings).toEqual(expect.arrayContaining(['PORT', 'LAYFAIR_DATA']));
  });

  it('README.md and DEVELOPERS.md are there', () => {
    expect(Object.keys(forAll)).toEqual(expect.arrayContaining(['README.md', 'DEVELOPERS.md']));
  });

  it('every command, flag and environment variable is documented', () => {
    const forPeople = offersOf(code).settings;
    const forTesters = offers.settings.filter((name) => !forPeople.includes(name));
    expect([
      ...undocumented({ ...offers, settings: forPeople }, forUsers),
      ...undocumented({ commands: [], flags: [], settings: forTesters }, forAll),
    ]).toEqual([]);
  });

  it('every command, script, variable and link that the docs name exists', () => {
    const exists = (path: string): boolean => existsSync(join(root, path));
    expect(unkept(forAll, offers, Object.keys(scripts), exists)).toEqual([]);
  });
});

describe('the checker of the docs', () => {
  const code = {
    'src/cli/days.ts': [
      `program.command('days').argument('<job>').option('-w, --weather <file>', 'a forecast');`,
      `addOption(new Option('--now <time>', 'pretend'));`,
      `const word = text.replace('--', ' ');`,
    ].join('\n'),
    'src/server/main.ts': `const a = process.env['PORT'] ?? env.LAYFAIR_HOST ?? process.env.HOME;`,
  };

  it('finds what the code offers', () => {
    expect(offersOf(code)).toEqual({
      commands: ['days'],
      flags: ['--weather', '--now'],
      settings: ['PORT', 'LAYFAIR_HOST'],
    });
  });

  it('notices what no page names, and is not content with a longer word', () => {
    const docs = { 'README.md': 'layfair daysy --weather-file --now SUPPORT LAYFAIR_HOST' };
    expect(undocumented(offersOf(code), docs)).toEqual([
      "the command 'days' is in no page of the docs ('layfair days ...')",
      'the flag --weather is in no page of the docs',
      'the environment variable PORT is in no page of the docs',
    ]);
  });

  it('is content when all is named', () => {
    const docs = {
      'docs/use.md': '`layfair -- days JOB.json --weather f --now t`; PORT, LAYFAIR_HOST.',
    };
    expect(undocumented(offersOf(code), docs)).toEqual([]);
  });

  it('notices promises that are not kept', () => {
    const page = [
      'Set `LAYFAIR_COLOUR`. Run `npm run -s layfair -- nights`, then `npm run polish`.',
      'See [there](there.md#part), [here](here.md) and [a site](https://example.org/x).',
    ].join('\n');
    const scripts = ['layfair'];
    const exists = (path: string): boolean => path === 'docs/here.md';
    expect(unkept({ 'docs/use.md': page }, offersOf(code), scripts, exists)).toEqual([
      'docs/use.md: nothing reads LAYFAIR_COLOUR',
      "docs/use.md: no command 'nights'",
      "docs/use.md: no script 'polish' in package.json",
      'docs/use.md: the link to there.md leads nowhere',
    ]);
  });
});
