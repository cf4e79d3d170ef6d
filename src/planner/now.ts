import { MS_PER_MINUTE } from '../units/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import type { AdjustedChance } from './chance.ts';
import type { DayPlan } from './day-plan.ts';
import type { DayRun, FoundWork } from './day-run.ts';
import { judgedWindow } from './film-times.ts';
import { type CloseUpList, closeUpList } from './now-close-up-list.ts';
import { type FilmNow, filmsNow } from './now-films.ts';
import { type OffRoof, offRoofNow } from './now-off-roof.ts';
import {
  chooseWay,
  closedBefore,
  runWays,
  type SkyNow,
  type WayId,
  type WayResult,
} from './now-ways.ts';
import { quantile } from './quantile.ts';

/** A task that comes next on the way chosen, in one forecast's times so that they fit together. */
export interface NextTask {
  readonly n: number;
  readonly startMs: number;
  readonly endMs: number;
}

/** The best way on from a moment, and what it was chosen from. */
export interface NowAdvice {
  readonly plan: DayPlan;
  readonly found: FoundWork;
  readonly atMs: number;
  /** Everything on the list is done. */
  readonly finished: boolean;
  readonly opened: boolean;
  readonly rainSafe: boolean;
  /** A safety rule that keeps everybody off the roof; the way chosen begins when it ends. */
  readonly offRoof: OffRoof | null;
  readonly ways: readonly WayResult[];
  readonly chosen: WayResult;
  /** What the way chosen comes to from this minute: going on that begins nothing is closing up. */
  readonly does: WayId;
  readonly chance: AdjustedChance;
  readonly next: readonly NextTask[];
  readonly films: readonly FilmNow[];
  readonly closeUp: CloseUpList;
  /** Latest start of closing up, null where nothing is open. */
  readonly closeUpByMs: number | null;
  /** No new section is begun after this; null where none is left to begin. */
  readonly stopOpeningMs: number | null;
  /** Rain by the foreman's eye, and by the share of forecasts the job's confidence allows; null = none. */
  readonly seenRainMs: number | null;
  readonly foreseenRainMs: number | null;
}

const NEXT_SHOWN = 5;

/**
 * 'What now?' from work as found at a moment.
 * @param thunderMs  last thunder, null = none
 * @param rainInMin  minutes until rain by the foreman's eye, null = not said
 */
export function adviseNow(
  plan: DayPlan,
  found: FoundWork,
  atMs: number,
  {
    thunderMs,
    rainInMin,
  }: { readonly thunderMs: number | null; readonly rainInMin: number | null },
): NowAdvice {
  const { steps } = plan;
  const offRoof = offRoofNow(plan, atMs, thunderMs);
  const sky: SkyNow = {
    atMs,
    // Wind and darkness are in each forecast; thunder is not.
    offRoofUntilMs: offRoof?.why === 'thunder' ? offRoof.untilMs! : Number.NEGATIVE_INFINITY,
    rainMs: rainInMin === null ? Number.POSITIVE_INFINITY : atMs + rainInMin * MS_PER_MINUTE,
  };
  const ways = runWays(plan, found, sky);
  const { chosen, chance } = chooseWay(plan, ways);
  const done = new Set(found.done.map(({ n }) => n));
  const films = filmsNow(plan, found, atMs);
  const closeUp = closeUpList(plan, found, films, atMs);
  const foreseenRainMs = foreseenByAll(plan, atMs);
  const limitMs = Math.min(
    plan.shift.endMs,
    closedBefore(sky),
    foreseenRainMs ?? plan.shift.endMs,
    knownUntil(plan, atMs),
  );
  const isOpen = closeUp.actions.length > 0;
  return {
    plan,
    found,
    atMs,
    finished: done.size === steps.length,
    opened: steps.some(
      ({ activity }, n) => activity.opens && (done.has(n) || found.inHand?.n === n),
    ),
    rainSafe: steps.every(({ activity }, n) => !activity.forRainSafe || done.has(n)),
    offRoof,
    ways,
    chosen,
    does: whatItDoes(plan, found, chosen, atMs),
    chance,
    next: nextTasks(chosen, found, atMs),
    films,
    closeUp,
    closeUpByMs: isOpen ? Math.max(atMs, limitMs - closeUp.minutes * MS_PER_MINUTE) : null,
    stopOpeningMs: stopOpening(plan, done, atMs, limitMs, closeUp),
    seenRainMs: rainInMin === null ? null : sky.rainMs,
    foreseenRainMs,
  };
}

/**
 * The moment by which more forecasts have had rain than the job's confidence lets pass; null = not today.
 * One that ends before it rained is neither wet nor dry from there on.
 */
function foreseenByAll({ prepared, shift }: DayPlan, atMs: number): number | null {
  const { grid, nextRain, job } = prepared;
  const step = stepAt(grid, atMs);
  const known = [...grid.knownSteps]
    .map((end, m) => ({ end, rain: nextRain[m * grid.steps + step] ?? grid.steps }))
    .filter(({ end }) => step < end);
  const rains = known.map(({ rain }) => rain).sort((a, b) => a - b);
  const first = rains.find((rain, n) => {
    const of = known.filter((one) => one.rain <= rain || one.end > rain).length;
    return n + 1 > (1 - job.confidence) * of + 1e-9;
  });
  if (first === undefined || first >= grid.steps) return null;
  const ms = Math.max(atMs, grid.startMs + first * grid.stepMs);
  return ms < shift.endMs ? ms : null;
}

/**
 * From when on more forecasts have ended than the job's confidence lets pass: what nobody knows is not
 * taken for dry, and all is closed before it. Infinity where they reach over the day.
 */
function knownUntil({ prepared, shift }: DayPlan, atMs: number): number {
  const { grid, job } = prepared;
  const step = stepAt(grid, atMs);
  const ends = [...grid.knownSteps].filter((end) => end > step);
  const first = quantile(ends, 1 - job.confidence);
  const ms = first === null ? Number.POSITIVE_INFINITY : stepStartMs(grid, first);
  return ms < shift.endMs ? ms : Number.POSITIVE_INFINITY;
}

/** What is begun on a way before anybody closes up, in most of the forecasts. */
function whatItDoes(plan: DayPlan, found: FoundWork, way: WayResult, atMs: number): WayId {
  if (way.id !== 'go-on' && way.id !== 'open-no-more') return way.id;
  let begins = 0;
  let closes = 0;
  for (const run of way.runs) {
    const begun = begunIn(run, found, atMs);
    if (begun.some(({ n }) => plan.steps[n]!.closes === null) || run.kind === 'finished')
      begins += 1;
    else if (begun.length > 0) closes += 1;
  }
  if (2 * begins > way.runs.length) return way.id;
  return 2 * (begins + closes) > way.runs.length ? 'close-coated' : 'close-up';
}

function begunIn(run: DayRun, found: FoundWork, atMs: number): NextTask[] {
  const before = new Set([...found.done.map(({ n }) => n), found.inHand?.n]);
  return [...run.startMs]
    .map((startMs, n) => ({ n, startMs, endMs: run.doneMs[n]! }))
    .filter(({ n, startMs }) => startMs >= atMs && !before.has(n))
    .sort((a, b) => a.startMs - b.startMs);
}

/** Of the forecasts that end as most do, the one that ends in the middle. */
function nextTasks(way: WayResult, found: FoundWork, atMs: number): NextTask[] {
  const counts = Object.entries(way.outcomes).sort(([, a], [, b]) => b - a);
  const alike = way.runs
    .filter(({ kind }) => kind === counts[0]![0])
    .sort((a, b) => a.endMs - b.endMs);
  const run = alike[Math.floor((alike.length - 1) / 2)]!;
  return begunIn(run, found, atMs).slice(0, NEXT_SHOWN);
}

/** The latest start of the next section that is closed, and all closed up after it, by the limit. */
function stopOpening(
  plan: DayPlan,
  done: ReadonlySet<number>,
  atMs: number,
  limitMs: number,
  closeUp: CloseUpList,
): number | null {
  const next = plan.steps.find(({ activity, film }, n) => {
    return activity.stage === 'field' && film !== null && !done.has(n);
  });
  if (next === undefined) return null;
  const { grid } = plan.prepared;
  const waits = Array.from({ length: grid.memberCount }, (_, m) =>
    judgedWindow(next.film!, m, atMs),
  );
  const waitMs = quantile(waits.map(({ readyMs }) => readyMs).filter(Number.isFinite), 0.5) ?? 0;
  const needMs = next.durationMs + waitMs + next.closingMs + closeUp.minutes * MS_PER_MINUTE;
  return Math.max(atMs, limitMs - needMs);
}
