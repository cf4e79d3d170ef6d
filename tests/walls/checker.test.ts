import { describe, expect, it } from 'vitest';
import { checkWalls } from './check-walls.ts';
import { readSource } from './read-source.ts';
import { rooms } from './rooms.ts';

/** Index files for every room, so that a fixture shows only the breach it is about. */
function problemsOf(path: string, text: string): string[] {
  const room = /^src\/([^/]+)\//.exec(path)?.[1];
  const index = `src/${room}/index.ts`;
  const needsIndex = room !== undefined && room in rooms;
  return checkWalls({ ...(needsIndex ? { [index]: '' } : {}), [path]: text });
}

describe('reading imports', () => {
  it('sees every form, and whether it is only types', () => {
    const text = [
      `import type { A } from './a.ts';`,
      `import { type B, type C } from './b.ts';`,
      `import { type D, e } from './d.ts';`,
      `import f, * as g from './f.ts';`,
      `import './h.ts';`,
      `export * from './i.ts';`,
      `export type * from './j.ts';`,
      `export { k as l } from './k.ts';`,
      `export type { M } from './m.ts';`,
      `export * as n from './n.ts';`,
      `const o = import('./o.ts');`,
      `type P = import('./p.ts').P;`,
      `let q: typeof import('./q.ts');`,
      `import r = require('./r.ts');`,
      `import {`,
      `  type S,`,
      `  t,`,
      `} from './s.ts';`,
      `import u from "./u.json" with { type: 'json' };`,
    ].join('\n');
    const found = readSource('x.ts', text).imports;
    expect(found.map(({ from, typesOnly }) => `${from} ${typesOnly ? 'types' : 'all'}`)).toEqual([
      './a.ts types',
      './b.ts types',
      './d.ts all',
      './f.ts all',
      './h.ts all',
      './i.ts all',
      './j.ts types',
      './k.ts all',
      './m.ts types',
      './n.ts all',
      './o.ts all',
      './p.ts types',
      './q.ts types',
      './r.ts all',
      './s.ts all',
      './u.json all',
    ]);
    expect(found.map(({ line }) => line).slice(-2)).toEqual([15, 19]);
  });

  it('is not misled by comments, strings, templates, patterns and markup', () => {
    const text = [
      `// import '../cli/index.ts'`,
      `/* export * from '../cli/index.ts' */`,
      `const a = "import '../cli/index.ts'";`,
      `const b = \`\${a} import '../cli/index.ts'\`;`,
      `const c = /import '..\\/cli'/;`,
      `const d = <p>Don't import "../cli/index.ts" from here; it's {c.source}</p>;`,
      `const e = { Date: 1, now: 2 }; e.Date; type F = Date; const g: Date | null = null;`,
    ].join('\n');
    expect(readSource('x.tsx', text)).toEqual({ imports: [], uses: [] });
  });
});

describe('the checker catches', () => {
  it.each([
    [
      'a room lower down',
      'src/units/a.ts',
      `import { x } from '../time/index.ts';`,
      'imports time',
    ],
    [
      'types of a room not listed',
      'src/roof/a.ts',
      `import type { X } from '../weather/index.ts';`,
      'imports weather',
    ],
    [
      'a way past the index',
      'src/planner/a.ts',
      `import { x } from '../roof/take-off.ts';`,
      'use roof/index.ts',
    ],
    [
      'more than types',
      'src/stages/a.ts',
      `import { type X, y } from '../weather/index.ts';`,
      'more than types of weather',
    ],
    [
      'a passed-on room',
      'src/feed/a.ts',
      `export * from '../weather/index.ts';`,
      'more than types of weather',
    ],
    [
      'a late import',
      'src/physics/a.ts',
      `const a = await import('../cli/index.ts');`,
      'imports cli',
    ],
    [
      'an import only known at run time',
      'src/cli/a.ts',
      `await import(process.argv[2]);`,
      'only known at run time',
    ],
    [
      'the feed in the planner',
      'src/planner/a.ts',
      `import { x } from '../feed/index.ts';`,
      'imports feed',
    ],
    [
      'the server in the command line',
      'src/cli/a.ts',
      `import { x } from '../server/index.ts';`,
      'imports server',
    ],
    [
      'a file outside',
      'src/roof/a.ts',
      `import x from '../../data/x.json';`,
      'no part of the program',
    ],
    [
      'luxon outside time',
      'src/planner/a.ts',
      `import { DateTime } from 'luxon';`,
      'imports luxon',
    ],
    [
      'undici outside feed',
      'src/server/a.ts',
      `import { request } from 'undici';`,
      'imports undici',
    ],
    [
      'the database outside store',
      'src/cli/a.ts',
      `import { Kysely } from 'kysely';`,
      'imports kysely',
    ],
    ['part of a package', 'src/planner/a.ts', `import { z } from 'zod/mini';`, 'imports zod'],
    [
      'the web server outside server',
      'src/cli/a.ts',
      `import { serve } from '@hono/node-server';`,
      'imports @hono/node-server',
    ],
    [
      'files in a pure room',
      'src/weather/a.ts',
      `import { readFileSync } from 'node:fs';`,
      'computes from its arguments',
    ],
    [
      'files under their old name',
      'src/weather/a.ts',
      `import { readFileSync } from 'fs';`,
      'computes from its arguments',
    ],
    [
      'the process in a pure room',
      'src/roof/a.ts',
      `const a = process.env.HOME;`,
      'uses process.env',
    ],
    ['the console in a pure room', 'src/roof/a.ts', `console.log(1);`, 'uses console.log'],
    ['Date.now', 'src/server/a.ts', `const a = Date.now();`, 'reads the clock'],
    [
      'Date.now in disguise',
      'src/server/a.ts',
      `const a = globalThis.Date['now']();`,
      'reads the clock',
    ],
    ['Date taken whole', 'src/server/a.ts', `const { now } = Date;`, 'reads the clock'],
    ['new Date', 'src/weather/a.ts', `const a = new Date();`, 'uses new Date'],
    [
      'new Date of an instant',
      'src/planner/a.ts',
      `const a = new Date(0).getHours();`,
      'uses new Date',
    ],
    ['performance.now', 'src/planner/a.ts', `const a = performance.now();`, 'reads the clock'],
    ['the clock of luxon', 'src/time/a.ts', `const a = DateTime.now();`, 'reads the clock'],
    ['Math.random', 'src/planner/a.ts', `const a = Math.random();`, 'chance comes from a seed'],
    [
      'an id made in the planner',
      'src/planner/a.ts',
      `const a = crypto.randomUUID();`,
      'new ids are made in',
    ],
    [
      'chance from node',
      'src/store/a.ts',
      `import { randomBytes } from 'node:crypto';`,
      'new ids are made in',
    ],
    [
      'a page that reaches into a room',
      'web/src/a.ts',
      `import { x } from '../../src/planner/index.ts';`,
      'imports planner',
    ],
    [
      'a page with schemas',
      'web/src/a.ts',
      `import { x } from '../../src/contract/index.ts';`,
      'more than types of contract',
    ],
    [
      'a page that needs node',
      'web/src/a.ts',
      `import 'node:path';`,
      'computes from its arguments',
    ],
    [
      'a launcher that needs a room',
      'src/launch/a.mjs',
      `import '../units/index.ts';`,
      'a launcher runs before',
    ],
    [
      'a launcher that needs a package',
      'src/launch/a.mjs',
      `import 'zod';`,
      'a launcher runs before',
    ],
    ['a folder that is no room', 'src/helpers/a.ts', ``, 'stands in no room'],
    ['a loose file', 'src/a.ts', ``, 'stands in no room'],
    [
      'more than words',
      'src/contract/a.ts',
      `import { EDGE_KINDS, takeOff } from '../roof/index.ts';`,
      'imports takeOff of roof',
    ],
    [
      'a whole room where only words pass',
      'src/store/a.ts',
      `import * as roof from '../roof/index.ts';`,
      'imports * of roof',
    ],
    ['the clock of luxon as local time', 'src/time/a.ts', `DateTime.local();`, 'reads the clock'],
    [
      'the clock of luxon in UTC',
      'src/time/a.ts',
      `DateTime.utc({ locale: 'en' });`,
      'reads the clock',
    ],
    ['a long test', 'tests/rules/a.test.ts', `const a = 1;\n`.repeat(401), '401 lines'],
    ['capital letters', 'web/src/roofCard.ts', ``, 'small letters joined by hyphens'],
    ['underscores', 'tests/rules/a_b.test.ts', ``, 'small letters joined by hyphens'],
    ['a long file', 'src/roof/a.ts', `const a = 1;\n`.repeat(301), '301 lines'],
  ])('%s', (_name, path, text, problem) => {
    const problems = problemsOf(path, text);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain(problem);
  });

  it('a file that is not code', () => {
    expect(problemsOf('src/roof/a.ts', 'import { from')[0]).toMatch(
      /^src\/roof\/a\.ts: cannot be read as code/,
    );
  });

  it('a room without an index', () => {
    expect(checkWalls({ 'src/roof/a.ts': '' })).toEqual([
      'src/roof: no index.ts says what the room offers',
    ]);
  });

  it('a circle of imports, and not one of types', () => {
    const circle = (word: string) => ({
      'src/roof/index.ts': `import { a } from './a.ts';`,
      'src/roof/a.ts': `import ${word} { b } from './b.ts';`,
      'src/roof/b.ts': `import { c } from './index.ts';`,
    });
    expect(checkWalls(circle(''))).toEqual([
      'circle of imports: src/roof/index.ts -> src/roof/a.ts -> src/roof/b.ts -> src/roof/index.ts',
    ]);
    expect(checkWalls(circle('type'))).toEqual([]);
  });
});

describe('the checker allows', () => {
  it.each([
    ['the clock its own door', 'src/time/clock.ts', `export const now = () => Date.now();`],
    [
      'types where only types may pass',
      'src/stages/a.ts',
      `import type { X } from '../weather/index.ts';`,
    ],
    ['a neighbour in the same room', 'src/weather/a.ts', `import { b } from './grid/b.ts';`],
    ['a parent in the same room', 'src/weather/grid/a.ts', `import { b } from '../b.ts';`],
    ['words', 'src/contract/a.ts', `import { EDGE_KINDS, type Edge } from '../roof/index.ts';`],
    ['a time that is given', 'src/time/a.ts', `DateTime.utc(2026, 5, 12); DateTime.fromMillis(0);`],
    ['a file of a component', 'web/src/RoofCard.tsx', `export const RoofCard = () => <p>Roof</p>;`],
    ['arithmetic', 'src/physics/a.ts', `const a = Math.exp(Math.PI) + Date.UTC(2026, 4, 12);`],
    ['ids where people act', 'src/cli/a.ts', `import { randomUUID } from 'node:crypto';`],
    ['ids in the page', 'web/src/a.ts', `const a = crypto.randomUUID();`],
    [
      'packages in their room',
      'src/server/a.ts',
      `import { Hono } from 'hono'; import 'hono/cors';`,
    ],
    [
      'the settings of the build tool',
      'web/vite.config.ts',
      `import { defineConfig } from 'vite';`,
    ],
    ['300 lines', 'src/roof/a.ts', `const a = 1;\n`.repeat(300)],
  ])('%s', (_name, path, text) => {
    expect(problemsOf(path, text)).toEqual([]);
  });
});
