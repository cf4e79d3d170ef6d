import type { Activity } from '../../stages/index.ts';
import type { DayOption } from '../day-option.ts';
import type { DayPlan } from '../day-plan.ts';
import { lastStartOf, typicalRun } from '../work-order.ts';

/** A piece of work that is finished in one go once it is begun, and the last moment to begin it. */
export interface SafeStart {
  readonly words: string;
  /** null = no forecast finishes, or not even its planned start is good enough. */
  readonly lastMs: number | null;
  /** Its tasks on the day's list. */
  readonly ids: readonly string[];
}

/**
 * The last safe start of each piece of one-go work that the roof needs to be rain-safe: every half sheet,
 * the laps, every edge and detail, the night seal. Begun later than that, all before it being done,
 * the roof is no longer rain-safe in time in the share of forecasts the job asks for.
 * @returns in the order of the work
 */
export function safeStartsOf(option: DayOption): readonly SafeStart[] {
  const { plan } = option;
  const typical = typicalRun(option);
  const plannedMs = (n: number): number => typical?.startMs[n] ?? n;
  return piecesOf(plan)
    .map(({ words, tasks }) => {
      const first = tasks.reduce((a, b) => (plannedMs(b) < plannedMs(a) ? b : a));
      return {
        words,
        atMs: plannedMs(first),
        lastMs: typical === null ? null : lastStartOf(plan, first, typical),
        ids: tasks.map((n) => plan.steps[n]!.activity.id),
      };
    })
    .sort((a, b) => a.atMs - b.atMs)
    .map(({ words, lastMs, ids }) => ({ words, lastMs, ids }));
}

/** Pieces without a last safe start that are named. */
const MOST_NAMED = 3;

/** Why pieces have no last safe start, in one sentence; null where all have one. */
export function safeStartsNote(
  pieces: readonly Pick<SafeStart, 'words' | 'lastMs'>[],
): string | null {
  const without = pieces.filter(({ lastMs }) => lastMs === null);
  if (without.length === 0) return null;
  if (without.length === pieces.length)
    return 'No last safe start to name: even as planned, the roof is not rain-safe in the share of forecasts asked for.';
  const named = without.slice(0, MOST_NAMED).map(({ words }) => `“${words}”`);
  const more = without.length - named.length;
  const all = [...named, ...(more > 0 ? [`${more} more`] : [])];
  const last = all.pop()!;
  const list = all.length === 0 ? last : `${all.join(', ')} and ${last}`;
  return `None to name for ${list}: even as planned, the roof is then not rain-safe in the share of forecasts asked for.`;
}

interface Piece {
  readonly words: string;
  readonly tasks: number[];
}

function piecesOf({ steps }: DayPlan): readonly Piece[] {
  const pieces = new Map<string, Piece>();
  steps.forEach(({ activity }, n) => {
    if (!activity.oneGo || !activity.forRainSafe) return;
    const key = keyOf(activity);
    const piece = pieces.get(key) ?? { words: wordsOf(activity), tasks: [] };
    piece.tasks.push(n);
    pieces.set(key, piece);
  });
  return [...pieces.values()];
}

/** What its tasks' ids begin with: a half sheet, an edge, a detail; all laps together. */
function keyOf({ stage, id }: Activity): string {
  switch (stage) {
    case 'laps':
      return stage;
    case 'field':
      return /^field-\d+/.exec(id)?.[0] ?? id;
    case 'perimeter':
      return id.replace(/(-\d+)?-[a-z]+$/, '');
    default:
      return /^.*?-\d+/.exec(id)?.[0] ?? id;
  }
}

/** A task's own title without its size and its place among the sections of the piece. */
function wordsOf({ stage, title }: Activity): string {
  if (stage === 'laps') return 'Laps';
  const tail = title.slice(title.indexOf(': ') < 0 ? 0 : title.indexOf(': ') + 2);
  const name = tail
    .replace(/ \([^)]*\)$/, '')
    .replace(/,? \d+ of \d+/, '')
    .replace(/, last step$/, '');
  const [one, two, ...more] = name.split(', ');
  if (stage === 'details' && two !== undefined) return `${one} and ${more.length + 1} more`;
  return stage === 'field' ? `Field, ${name}` : `${name[0]!.toUpperCase()}${name.slice(1)}`;
}
