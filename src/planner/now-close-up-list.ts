import { MS_PER_MINUTE } from '../units/index.ts';
import type { DayPlan } from './day-plan.ts';
import type { FoundWork } from './day-run.ts';
import { LAST_LOOK_MIN, type OpenPart, openParts } from './now-close-up.ts';
import type { FilmNow } from './now-films.ts';
import { partName } from './now-names.ts';

/** One thing to do in closing up, in its place. */
export interface CloseUpAction {
  readonly what:
    | 'close-film'
    | 'cover-film'
    | 'turn-down'
    | 'sheet-deck'
    | 'cover-details'
    | 'close-laps'
    | 'seal-edges'
    | 'outlets'
    | 'look-below'
    | 'photo';
  readonly words: string;
  readonly minutes: number;
  /** Until when that film is usable; null = no film. */
  readonly usableUntilMs: number | null;
  /** What the stage says of rain while at it; null where it says nothing more. */
  readonly ifRain: string | null;
}

export interface CloseUpList {
  readonly minutes: number;
  readonly actions: readonly CloseUpAction[];
}

/** A film not ready so soon is turned down instead (from memory). */
const WORTH_WAITING_MS = 15 * MS_PER_MINUTE;

const NOTHING: CloseUpList = { minutes: 0, actions: [] };

/**
 * Closing up from a moment: films in the order in which they go off, then what lies loose or bare, details,
 * laps, and the night seal of what edge is left, last the outlets, the rooms below and the photo. Nothing
 * where nothing is open.
 * @param films  as `filmsNow` gives them
 */
export function closeUpList(
  plan: DayPlan,
  found: FoundWork,
  films: readonly FilmNow[],
  atMs: number,
): CloseUpList {
  const { steps } = plan;
  const done = new Set(found.done.map(({ n }) => n));
  const begun = (n: number): boolean => done.has(n) || found.inHand?.n === n;
  const opened = steps.some(({ activity }, n) => activity.opens && begun(n));
  const rainSafe = steps.every(({ activity }, n) => !activity.forRainSafe || done.has(n));
  if (rainSafe) return NOTHING;
  if (!opened) return looseOnly(plan, done);
  const together = new Set(done);
  const waiting: Timed[] = [];
  const covered: CloseUpAction[] = [];
  for (const film of films) {
    const step = steps[film.n]!;
    const closing = steps[step.closedBy!]!;
    const inTurn = closing.after.every((n) => n === film.n || together.has(n));
    const readyMs = readySoon(film, closing.durationMs, atMs);
    const name = partName(closing.activity);
    const shared = { usableUntilMs: film.usableUntil.midMs, ifRain: step.activity.ifRain };
    if (inTurn && readyMs !== null) {
      together.add(step.closedBy!);
      const words = `Bring together once the finger finds it ready: ${name}`;
      const minutes = closing.durationMs / MS_PER_MINUTE;
      waiting.push({ readyMs, action: { what: 'close-film', words, minutes, ...shared } });
    } else {
      const words =
        film.state === 'gone-off'
          ? `Gone off, to be scraped later; cover it: ${name}`
          : `Not ready in time; turn the sheet down over it and weight it: ${name}`;
      covered.push({ what: 'cover-film', words, minutes: 0, ...shared });
    }
  }
  const left = openParts(plan).filter(({ n }) => !together.has(n));
  const actions = inOrder(waiting, [...covered, ...partActions(plan, left)], atMs);
  actions.push(
    look('outlets', 'Outlets and gutters clear; see them run', LAST_LOOK_MIN.outlets),
    look('look-below', 'Look at the rooms below for water', LAST_LOOK_MIN.below),
    look(
      'photo',
      'Photo of every edge left open, and write down what is left',
      LAST_LOOK_MIN.photo,
    ),
  );
  return { minutes: actions.reduce((sum, { minutes }) => sum + minutes, 0), actions };
}

/** Nothing lets rain in yet, but a sheet that lies loose is not left to the wind. */
function looseOnly(plan: DayPlan, done: ReadonlySet<number>): CloseUpList {
  const placed = plan.steps.findIndex(({ activity }) => activity.id === 'unroll');
  if (placed < 0 || !done.has(placed)) return NOTHING;
  const actions = partActions(
    plan,
    openParts(plan).filter(({ kind }) => kind === 'loose'),
  );
  return { minutes: actions.reduce((sum, { minutes }) => sum + minutes, 0), actions };
}

interface Timed {
  readonly readyMs: number;
  readonly action: CloseUpAction;
}

/** When a film may be brought together, if that is soon and before it goes off; else null. */
function readySoon(film: FilmNow, closingMs: number, atMs: number): number | null {
  if (film.state === 'gone-off') return null;
  const { feltDryMs, touchDry, lastMs, usableUntil } = film;
  const dryMs = feltDryMs ?? (touchDry === null ? lastMs : touchDry.midMs);
  if (dryMs === null || dryMs > atMs + WORTH_WAITING_MS) return null;
  const readyMs = Math.max(atMs, dryMs);
  return usableUntil.midMs !== null && readyMs + closingMs > usableUntil.midMs ? null : readyMs;
}

/**
 * A film as soon as it is ready, the one that goes off first before the others; meanwhile the rest in its
 * order. Nobody stands about while anything can be done, so that doing one thing sooner never makes it longer.
 */
function inOrder(
  waiting: readonly Timed[],
  others: readonly CloseUpAction[],
  atMs: number,
): CloseUpAction[] {
  const films = [...waiting];
  const rest = [...others];
  const actions: CloseUpAction[] = [];
  let ms = atMs;
  while (films.length > 0 || rest.length > 0) {
    const at = films.findIndex(({ readyMs }) => readyMs <= ms);
    const film = at >= 0 ? films.splice(at, 1)[0] : rest.length > 0 ? undefined : films.shift();
    const action = film?.action ?? rest.shift()!;
    const waitMs = Math.max(0, (film?.readyMs ?? ms) - ms);
    // Waiting for the film counts to closing it.
    actions.push({ ...action, minutes: action.minutes + waitMs / MS_PER_MINUTE });
    ms += waitMs + action.minutes * MS_PER_MINUTE;
  }
  return actions;
}

const look = (what: CloseUpAction['what'], words: string, minutes: number): CloseUpAction => ({
  what,
  words,
  minutes,
  usableUntilMs: null,
  ifRain: null,
});

/** In the order in which they are done. */
const PARTS: readonly {
  readonly kind: OpenPart['kind'];
  readonly what: CloseUpAction['what'];
  readonly words: (size: string, names: string) => string;
}[] = [
  {
    kind: 'bare',
    what: 'sheet-deck',
    words: (size) => `Cover the bare deck with sheeting, laid with the fall and weighted: ${size}`,
  },
  {
    kind: 'loose',
    what: 'turn-down',
    words: (size) => `Turn the loose sheet down flat, dry side under, and weight it: ${size}`,
  },
  {
    kind: 'detail',
    what: 'cover-details',
    words: (size, names) => `Cover with mastic or tape what has no patch yet, ${size}: ${names}`,
  },
  {
    kind: 'lap',
    what: 'close-laps',
    words: (size, names) => `Tape or turn down the open laps and weight them, ${size}: ${names}`,
  },
  {
    kind: 'edge',
    what: 'seal-edges',
    words: (size, names) =>
      `Night seal on an unbroken line of mastic or tape, weighted, ${size}: ${names}`,
  },
];

function partActions(plan: DayPlan, left: readonly OpenPart[]): CloseUpAction[] {
  const bare = left.some(({ kind }) => kind === 'bare');
  return PARTS.flatMap(({ kind, what, words }): CloseUpAction[] => {
    // Under sheeting there is no sheet to turn down yet.
    const kinds = kind === 'bare' ? ['bare', 'loose'] : kind === 'loose' && bare ? [] : [kind];
    const parts = left.filter((part) => kinds.includes(part.kind));
    const [first] = parts.filter((part) => part.kind === kind);
    if (first === undefined) return [];
    const minutes = parts.reduce((sum, { ms }) => sum + ms, 0) / MS_PER_MINUTE;
    const activities = parts.map(({ n }) => plan.steps[n]!.activity);
    const names = [...new Set(activities.map(partName))].join(', ');
    const { ifRain } = plan.steps[first.n]!.activity;
    return [
      { what, words: words(sizeOf(parts, kind), names), minutes, usableUntilMs: null, ifRain },
    ];
  });
}

function sizeOf(parts: readonly OpenPart[], kind: OpenPart['kind']): string {
  let size = 0;
  for (const part of parts) {
    if (part.kind !== kind) continue;
    size += part.kind === 'detail' ? part.count : 'm2' in part ? part.m2 : part.m;
  }
  if (kind === 'detail') return `${size}`;
  return `${size.toFixed(1).replace(/\.0$/, '')} ${kind === 'bare' || kind === 'loose' ? 'm²' : 'm'}`;
}
