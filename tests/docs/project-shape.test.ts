import { describe, expect, it } from 'vitest';
import { projectFiles, readProjectFile } from '../walls/project-files.ts';

const TOP_LEVEL = [
  '.ci',
  '.gitignore',
  '.npmrc',
  'DEVELOPERS.md',
  'README.md',
  'biome.json',
  'data',
  'docs',
  'package-lock.json',
  'package.json',
  'src',
  'tests',
  'tsconfig.json',
  'web',
];

const TEXT =
  /(\.(ts|tsx|mjs|js|json|md|css|html|svg|csv|txt|yml|yaml|sql)|(^|\/)[^.]+|\/\.[a-z]+)$/;

/** What belongs to one machine or to how the work is organised, and to no reader of the project. */
const LEAKS: readonly (readonly [string, RegExp])[] = [
  [
    'a path of one machine',
    /(?<![\w.])\/(work\/(main|shared|[.]library)|root\/|tmp\/|home\/[a-z])/,
  ],
  ['a path of one machine', /bash[_]jobs|[.]library\b/],
  ['a path of one machine', /\b[A-Z]:\\Users\\/],
  ['the host of a package registry', /\bregistry\.[\w-]+\.\w+|"resolved":\s*"http/],
  ['the number of a work order', /\bissues? (no\. ?|#)?\d{1,3}\b/i],
  ['how the work was handed out', /\b(layfair[-]brief|walk-?through)\b/i],
];

function leaksIn(text: string): string[] {
  return text
    .split('\n')
    .flatMap((line, index) =>
      LEAKS.filter(([, pattern]) => pattern.test(line)).map(
        ([what]) => `line ${index + 1}: ${what}: ${line.trim().slice(0, 120)}`,
      ),
    );
}

const files = projectFiles();

describe.skipIf(files === null)('the project folder (skipped outside a git work tree)', () => {
  it('holds only what belongs at its top level', () => {
    const top = new Set((files ?? []).map((path) => path.split('/')[0]!));
    expect([...top].filter((name) => !TOP_LEVEL.includes(name))).toEqual([]);
  });

  it('says nothing of the machine it was made on', () => {
    const leaks = (files ?? [])
      .filter((path) => TEXT.test(path))
      .flatMap((path) => leaksIn(readProjectFile(path)).map((leak) => `${path}, ${leak}`));
    expect(leaks).toEqual([]);
  });
});

describe('the search for leaks', () => {
  const path = (...parts: readonly string[]): string => ['', ...parts].join('/');
  const sentence = (...words: readonly string[]): string => words.join(' ');

  it.each([
    `see ${path('work', 'main', 'src')}`,
    `"${path('root', 'x')}"`,
    `in ${path('tmp', 'x')}`,
    path('home', 'anna', 'layfair'),
    ['bash', 'jobs.0'].join('_'),
    `https://${['registry', 'npmjs', 'org'].join('.')}/zod`,
    sentence('as issue', '3 asks'),
    ['a walk', 'through'].join('-'),
  ])('finds %s', (text) => {
    expect(leaksIn(`fine\n${text}`)).toHaveLength(1);
  });

  it.each([
    '../shared/weather/README.md',
    "get('/jobs/:id/work/:day')",
    'the forecast issued at 00 UTC; issue time 06:00',
    'https://open-meteo.com/en/docs',
  ])('lets %s pass', (text) => {
    expect(leaksIn(text)).toEqual([]);
  });
});
