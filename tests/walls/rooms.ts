/**
 * What a room may take from another: everything its index offers; its types; or its vocabulary, which is
 * types and lists of words such as EDGE_KINDS, but nothing that computes.
 */
export type Reach = 'all' | 'types' | 'words';

export interface Room {
  readonly mayImport: Readonly<Record<string, Reach>>;
  /** Packages from the registry that this room may use. */
  readonly packages: readonly string[];
  /** Whether it may reach files, the network, the process: everything else computes from its arguments only. */
  readonly touchesTheWorld: boolean;
}

/** The rooms above the planner, the feed aside: what the planner and those after it may use. */
const ground: Readonly<Record<string, Reach>> = {
  units: 'all',
  time: 'all',
  physics: 'all',
  weather: 'all',
  products: 'all',
  roof: 'all',
  stages: 'all',
};

const domainWords: Readonly<Record<string, Reach>> = {
  units: 'all',
  time: 'words',
  physics: 'words',
  weather: 'words',
  products: 'words',
  roof: 'words',
  stages: 'words',
  planner: 'words',
  programme: 'words',
  record: 'words',
};

/** What a question needs to become an answer in the contract's words: all that computes, nothing that fetches or keeps. */
const computing: Readonly<Record<string, Reach>> = {
  ...ground,
  planner: 'all',
  programme: 'all',
  record: 'all',
  contract: 'all',
};

const everything: Readonly<Record<string, Reach>> = {
  ...computing,
  feed: 'all',
  store: 'all',
  answers: 'all',
};

function pure(mayImport: Readonly<Record<string, Reach>>, packages: readonly string[] = []): Room {
  return { mayImport, packages, touchesTheWorld: false };
}

function worldly(mayImport: Readonly<Record<string, Reach>>, packages: readonly string[]): Room {
  return { mayImport, packages, touchesTheWorld: true };
}

/** The folders of src, in order: a room imports only rooms that stand before it, and only those listed. */
export const rooms: Readonly<Record<string, Room>> = {
  units: pure({}),
  time: pure({ units: 'all' }, ['luxon']),
  physics: pure({ units: 'all' }),
  weather: pure({ units: 'all', time: 'all', physics: 'all' }),
  feed: worldly({ units: 'all', time: 'all', weather: 'types' }, ['undici', 'zod']),
  products: pure({ units: 'all', physics: 'all', weather: 'types' }, ['zod']),
  roof: pure({ units: 'all' }, ['clipper2-ts']),
  stages: pure({ units: 'all', products: 'all', roof: 'all', weather: 'types' }),
  planner: pure(ground),
  programme: pure({ ...ground, planner: 'all' }),
  record: pure({ ...ground, planner: 'all' }),
  store: worldly(domainWords, ['libsql', 'kysely', 'zod']),
  contract: pure(domainWords, ['zod']),
  answers: pure(computing),
  server: worldly(everything, ['hono', '@hono/node-server', 'zod']),
  cli: worldly(everything, ['commander', 'zod']),
};

/** The pages talk to the API; these are the only parts of src that a browser gets. */
export const web: Room = pure({ contract: 'types', units: 'all', time: 'all', products: 'all' }, [
  'preact',
  '@preact/signals',
  'preact-iso',
]);

/** Starts and builds the rest before anything is installed: a folder of src, but no room. */
export const launchFolder = 'launch';

/** The one door to the clock. */
export const clockFile = 'src/time/clock.ts';

/** New ids are made where a person or a device acts; everywhere else they are arguments. */
export const mayMakeIds: readonly string[] = ['cli', 'server', 'web'];
