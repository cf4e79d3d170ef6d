import { builtinModules } from 'node:module';
import { posix } from 'node:path';
import { type Import, readSource, type Source } from './read-source.ts';
import { clockFile, launchFolder, mayMakeIds, type Room, rooms, web } from './rooms.ts';

/** Path below the project folder, with '/', to content. */
export type Tree = Readonly<Record<string, string>>;

const CODE = /\.(ts|tsx|mjs)$/;

/** Every breach of the walls in this tree of files, a sentence each. No sentence means that the walls stand. */
export function checkWalls(tree: Tree): string[] {
  const problems: string[] = [];
  const sources = new Map<string, Source>();
  for (const [path, text] of Object.entries(tree)) {
    problems.push(...checkNameAndSize(path, text));
    if (!CODE.test(path) || !/^(src|web)\//.test(path)) continue;
    const source = readOrSay(path, text, problems);
    if (source === null) continue;
    sources.set(path, source);
    problems.push(...checkSource(path, source));
  }
  return [...problems, ...checkIndexes(sources), ...checkCycles(sources)];
}

function readOrSay(path: string, text: string, problems: string[]): Source | null {
  try {
    return readSource(path, text);
  } catch (error) {
    problems.push(`${path}: cannot be read as code: ${String(error).split('\n')[0]}`);
    return null;
  }
}

function checkNameAndSize(path: string, text: string): string[] {
  const problems: string[] = [];
  for (const part of path.split('/')) {
    if (isGoodName(part)) continue;
    problems.push(`${path}: '${part}' is not in small letters joined by hyphens`);
  }
  const lines = text.split('\n').length - (text.endsWith('\n') ? 1 : 0);
  const most = path.startsWith('tests/') ? 400 : 300;
  if (CODE.test(path) && lines > most) {
    problems.push(`${path}: ${lines} lines, more than ${most}: split it`);
  }
  return problems;
}

function isGoodName(name: string): boolean {
  // A file of a component bears the component's own name.
  if (/^([A-Z][a-z0-9]*)+\.tsx$/.test(name)) return true;
  return /^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z0-9]+(-[a-z0-9]+)*)*$/.test(name);
}

function checkSource(path: string, source: Source): string[] {
  const place = placeOf(path);
  if (place === null) return [`${path}: stands in no room`];
  const at = (line: number): string => `${path}:${line}`;
  if (place === launchFolder) {
    return source.imports
      .filter(({ from }) => from !== '' && !from.startsWith('node:') && !from.startsWith('./'))
      .map(
        ({ from, line }) => `${at(line)} imports ${from}: a launcher runs before anything is there`,
      );
  }
  const room = place === 'web' ? web : rooms[place]!;
  return [
    ...source.imports.flatMap((found) => {
      const problem = checkImport(path, place, room, found);
      return problem === null ? [] : [`${at(found.line)} ${problem}`];
    }),
    ...source.uses.flatMap(({ what, line }) => {
      const problem = checkUse(path, place, room, what);
      return problem === null ? [] : [`${at(line)} ${problem}`];
    }),
  ];
}

/** The room's name, 'launch' or 'web'; null when the file stands in none. */
function placeOf(path: string): string | null {
  const parts = path.split('/');
  if (parts[0] === 'web') return 'web';
  const name = parts[1] ?? '';
  return parts.length > 2 && (name === launchFolder || name in rooms) ? name : null;
}

function checkImport(path: string, place: string, room: Room, found: Import): string | null {
  const { from } = found;
  if (from === '') return 'imports something that is only known at run time';
  if (from.startsWith('.')) return checkNeighbour(path, place, room, found);
  const name = from
    .split('/')
    .slice(0, from.startsWith('@') ? 2 : 1)
    .join('/');
  if (from.startsWith('node:') || builtinModules.includes(name)) {
    if (isToolConfig(path)) return null;
    if (!room.touchesTheWorld) return `imports ${from}: ${place} computes from its arguments only`;
    const chance = found.values.filter((taken) => /^(random|getRandom)/.test(taken));
    return chance.length > 0 ? checkChance(place, chance.join(', ')) : null;
  }
  if (isToolConfig(path) && name === 'vite') return null;
  return room.packages.includes(name) ? null : `imports ${name}: no package for ${place}`;
}

/** The build tool's own settings stand beside the pages and never reach a browser. */
function isToolConfig(path: string): boolean {
  return path === 'web/vite.config.ts';
}

function checkNeighbour(path: string, place: string, room: Room, found: Import): string | null {
  const target = posix.join(posix.dirname(path), found.from);
  const [top = '', name = '', ...rest] = target.split('/');
  const targetPlace = top === 'web' ? 'web' : top === 'src' ? name : null;
  if (targetPlace === place) return null;
  if (targetPlace === null) return `imports ${target}, which is no part of the program`;
  const reach = room.mayImport[targetPlace];
  if (reach === undefined) return `imports ${targetPlace}, which ${place} may not`;
  if (rest.join('/') !== 'index.ts') return `imports ${target}: use ${targetPlace}/index.ts`;
  if (reach === 'types' && !found.typesOnly) {
    return `imports more than types of ${targetPlace}: write 'import type'`;
  }
  const computes = found.values.filter((name) => !/^[A-Z][A-Z0-9_]*$/.test(name));
  if (reach === 'words' && computes.length > 0) {
    return `imports ${computes.join(', ')} of ${targetPlace}: only types and lists of words may pass`;
  }
  return null;
}

function checkUse(path: string, place: string, room: Room, what: string): string | null {
  if (/^(Date\.(UTC|parse)|Math\.(?!random|\?)\w+)$/.test(what)) return null;
  // The page shows instants it was given; it has no other tool for it.
  if (what === 'new Date of an instant' && place === 'web') return null;
  const readsClock =
    /^(new Date|Date\b|performance\.|process\.(hrtime|uptime)|DateTime\.now|Settings\.now)/.test(
      what,
    );
  if (readsClock)
    return path === clockFile ? null : `uses ${what}: only ${clockFile} reads the clock`;
  if (what.startsWith('Math')) return `uses ${what}: chance comes from a seed that is an argument`;
  if (what.startsWith('crypto.')) return checkChance(place, what);
  const outward = /^(process|console)\./.test(what);
  if (outward && !room.touchesTheWorld && place !== 'web') {
    return `uses ${what}: ${place} computes from its arguments only`;
  }
  return null;
}

function checkChance(place: string, what: string): string | null {
  if (/(^|\.)randomUUID$/.test(what) && mayMakeIds.includes(place)) return null;
  return `uses ${what}: new ids are made in ${mayMakeIds.join(', ')}, as randomUUID`;
}

function checkIndexes(sources: ReadonlyMap<string, Source>): string[] {
  const used = new Set([...sources.keys()].map(placeOf));
  return Object.keys(rooms)
    .filter((room) => used.has(room) && !sources.has(`src/${room}/index.ts`))
    .filter((room) => room !== 'server' && room !== 'cli')
    .map((room) => `src/${room}: no index.ts says what the room offers`);
}

/** Circles of imports at run time: whichever file loads first finds the others half made. */
function checkCycles(sources: ReadonlyMap<string, Source>): string[] {
  const problems: string[] = [];
  const done = new Set<string>();
  const visit = (path: string, trail: readonly string[]): void => {
    const start = trail.indexOf(path);
    if (start >= 0)
      problems.push(`circle of imports: ${[...trail.slice(start), path].join(' -> ')}`);
    if (start >= 0 || done.has(path)) return;
    for (const { from, typesOnly } of sources.get(path)?.imports ?? []) {
      if (typesOnly || !from.startsWith('.')) continue;
      visit(posix.join(posix.dirname(path), from), [...trail, path]);
    }
    done.add(path);
  };
  for (const path of sources.keys()) visit(path, []);
  return problems;
}
