import { MS_PER_HOUR } from '../../units/index.ts';
import { stepAt, stepStartMs } from '../../weather/index.ts';
import { type CoreProject, solveSchedule } from '../core/index.ts';
import type { DayPlan } from '../day-plan.ts';
import { readyAt } from '../film-times.ts';
import { fixedFuture } from '../fixed-future.ts';
import { waitsOf } from './bounds.ts';
import type { OrderId } from './way.ts';

/** Decisions and dead ends of the core's search for one order, and schedules of its lists. */
const NODES = 100;
/** Forecasts are told apart by how fast the first film dries so long after the shift begins. */
const LOOK_MS = 3 * MS_PER_HOUR;
/** Work is put in order on a day that does not end before this. */
const HORIZON_MS = 16 * MS_PER_HOUR;

export interface Order {
  readonly id: OrderId;
  /** Indices of the plan's steps in their new order. */
  readonly list: readonly number[];
}

/**
 * Other orders of a day's list: those of the shortest day in a middling forecast and in one in which
 * films dry slowly, by the scheduling core. Only how films dry is looked at, no rule of the weather and no
 * end of the day: what may begin when is for the run in each forecast to say. So a list depends on
 * the work and the weather, never on how long the crew or the light stays.
 */
export function ordersOf(plan: DayPlan): Order[] {
  const found: Order[] = [];
  const seen = new Set([plan.steps.map((_, n) => n).join()]);
  for (const { id, m } of typicalForecasts(plan)) {
    const list = orderIn(plan, m);
    if (list === null || seen.has(list.join())) continue;
    seen.add(list.join());
    found.push({ id, list });
  }
  return found;
}

function typicalForecasts(plan: DayPlan): { readonly id: OrderId; readonly m: number }[] {
  const film = plan.steps.find((step) => step.film !== null)?.film ?? null;
  if (film === null) return [];
  const { grid } = plan.prepared;
  const atMs = plan.shift.startMs + LOOK_MS;
  const step = stepAt(grid, atMs);
  const minutes = film.doses[0] === undefined ? [] : knownAt(plan, step);
  const dryMs = new Map(minutes.map((m) => [m, dryIn(plan, m, atMs)]));
  const byDrying = [...dryMs.keys()].sort((a, b) => dryMs.get(a)! - dryMs.get(b)! || a - b);
  if (byDrying.length === 0) return [];
  const at = (share: number): number => byDrying[Math.floor(share * (byDrying.length - 1))]!;
  return [
    { id: 'for a middling forecast', m: at(0.5) },
    { id: 'for slow drying', m: at(0.9) },
  ];
}

function knownAt({ prepared: { grid } }: DayPlan, step: number): number[] {
  return Array.from({ length: grid.memberCount }, (_, m) => m).filter(
    (m) => step >= 0 && step < grid.knownSteps[m]!,
  );
}

/** How long all the kinds of film of a day would take to dry from one moment on, one after the other. */
function dryIn(plan: DayPlan, m: number, atMs: number): number {
  let sum = 0;
  const asked = new Set<unknown>();
  for (const { film } of plan.steps) {
    if (film === null || asked.has(film.product)) continue;
    asked.add(film.product);
    if (film.readyMin === 0) continue;
    sum += Math.min(24 * MS_PER_HOUR, (readyAt(film, m, atMs) ?? Number.POSITIVE_INFINITY) - atMs);
  }
  return sum;
}

/**
 * The list in the order of the core's earliest rain-safe end in one forecast, what the roof does not wait
 * for last: the crew fills its waits with it anyway. Null where the core finds none.
 */
function orderIn(plan: DayPlan, m: number): number[] | null {
  const needed = neededForRainSafe(plan);
  const project = unhurried(plan, m);
  const { starts } = solveSchedule(
    {
      ...project,
      activities: project.activities.map((one, n) => ({ ...one, counts: needed.has(n) })),
    },
    { budget: { nodes: NODES } },
  );
  if (starts === null) return null;
  const all = plan.steps.map((_, n) => n);
  return [
    ...all.filter((n) => needed.has(n)).sort((a, b) => starts[a]! - starts[b]! || a - b),
    ...all.filter((n) => !needed.has(n)),
  ];
}

/** Tasks the roof is not rain-safe without, and all that those wait for. */
function neededForRainSafe({ steps }: DayPlan): Set<number> {
  const needed = new Set<number>();
  const ask = (n: number): void => {
    if (needed.has(n)) return;
    needed.add(n);
    for (const before of waitsOf(steps[n]!)) ask(before);
  };
  steps.forEach((step, n) => {
    if (step.activity.forRainSafe) ask(n);
  });
  return needed;
}

/** A day without rules, rain or end, in which films dry as in forecast `m`. */
function unhurried(plan: DayPlan, m: number): CoreProject {
  const { grid } = plan.prepared;
  const startMs = stepStartMs(grid, stepAt(grid, plan.shift.startMs));
  const steps = plan.steps.map((step) => ({
    ...step,
    durationMs: Math.max(1, Math.round(step.durationMs / grid.stepMs)) * grid.stepMs,
    bits: 0,
    mask: { ...step.mask, turnsCold: null },
    activity: { ...step.activity, opens: false },
  }));
  const shift = { ...plan.shift, endMs: startMs + HORIZON_MS };
  return fixedFuture({ ...plan, steps, shift }, m, startMs, 'outside');
}
