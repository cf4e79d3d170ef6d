import { type ClockRange, readClock } from '../products/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import { stepStartMs } from '../weather/index.ts';
import type { DayOption } from './day-option.ts';
import type { DayPlan, Step } from './day-plan.ts';
import type { DayRun } from './day-run.ts';
import { expiresAt, jointClock } from './film-times.ts';
import { lastSafeStart } from './last-safe-start.ts';
import { quantile } from './quantile.ts';

/** One line of the crew's list. */
export interface WorkLine {
  readonly step: Step;
  readonly startMs: number;
  readonly endMs: number;
  readonly earlyMs: number;
  readonly lateMs: number;
  readonly people: number;
  readonly wait: { readonly minutes: number; readonly why: string } | null;
  readonly clock: { readonly touchDry: ClockRange | null; readonly usableUntil: ClockRange } | null;
  /** Sealant: when it has skinned over and rain no longer harms it; else null. */
  readonly rainAfter: ClockRange | null;
  readonly lastSafeStartMs: number | null;
}

/** Share of forecasts outside the early-late range at each end. */
const TAIL = 0.1;
/** Shorter gaps are a crew changing tools, not a wait. */
const SHORTEST_WAIT_MS = 2 * MS_PER_MINUTE;

/**
 * The order of work for a day's chosen start: one forecast's run, so that its times fit together, with
 * the range over all that get as far. Of those that finish, the one nearest the middle that brings
 * every film together by its last safe start, where there is one.
 * @returns the lines in order of time, empty where no forecast finishes
 */
export function workOrder(option: DayOption): readonly WorkLine[] {
  const { plan } = option;
  const typical = typicalRun(option);
  if (typical === null) return [];
  const m = option.runs.indexOf(typical);
  const { crew } = plan.prepared.job;
  const order = plan.steps
    .map((_, n) => n)
    .sort((a, b) => typical.startMs[a]! - typical.startMs[b]!);
  let freeMs = typical.startMs[order[0]!]!;
  return order.map((n): WorkLine => {
    const step = plan.steps[n]!;
    const startMs = typical.startMs[n]!;
    const starts = option.runs.map((run) => run.startMs[n]!).filter((ms) => !Number.isNaN(ms));
    const gapMs = startMs - freeMs;
    freeMs = Math.max(freeMs, typical.doneMs[n]!);
    return {
      step,
      startMs,
      endMs: typical.doneMs[n]!,
      earlyMs: Math.min(startMs, quantile(starts, TAIL) ?? startMs),
      lateMs: Math.max(startMs, quantile(starts, 1 - TAIL) ?? startMs),
      people: Math.min(crew.people, step.activity.maxPeople),
      wait:
        gapMs < SHORTEST_WAIT_MS
          ? null
          : {
              minutes: Math.round(gapMs / MS_PER_MINUTE),
              why: waitWords(typical, step, startMs - gapMs, startMs),
            },
      clock: step.film === null ? null : jointClock(step.film, m, startMs, typical.doneMs[n]!),
      rainAfter: skinOf(plan, step, typical.doneMs[n]!),
      lastSafeStartMs: lastStartOf(plan, n, typical),
    };
  });
}

/** Of one-go work. A film sets the last start of its own closing; all else, getting rain-safe in time. */
export function lastStartOf(plan: DayPlan, n: number, typical: DayRun): number | null {
  const step = plan.steps[n]!;
  if (!step.activity.oneGo) return null;
  return closesFilm(plan, step)
    ? lastClosingStart(plan, step, typical)
    : lastSafeStart(plan, n, typical.startMs[n]!, plan.prepared.job.confidence);
}

const closesFilm = (plan: DayPlan, step: Step): boolean =>
  step.closes !== null && plan.steps[step.closes]!.film !== null;

/** Started by then, a film is closed before it goes off in the share of forecasts asked for. */
function lastClosingStart(plan: DayPlan, step: Step, run: DayRun): number | null {
  const film = plan.steps[step.closes!]!.film!;
  const { grid, job } = plan.prepared;
  const expiries = Array.from({ length: grid.memberCount }, (_, m) => {
    // A forecast that ends within the day knows of no film that lasts beyond its end.
    const knownMs = stepStartMs(grid, grid.knownSteps[m]!);
    const unknownMs = knownMs < plan.shift.endMs ? knownMs : Number.POSITIVE_INFINITY;
    return expiresAt(film, m, run.startMs[step.closes!]!) ?? unknownMs;
  });
  const endMs = quantile(expiries, 1 - job.confidence) ?? Number.POSITIVE_INFINITY;
  return Number.isFinite(endMs) ? endMs - step.durationMs : null;
}

export function typicalRun({ plan, runs }: DayOption): DayRun | null {
  const finished = runs.filter((run) => run.kind === 'finished').sort((a, b) => a.endMs - b.endMs);
  const middle = Math.floor(finished.length / 2);
  const closings = plan.steps.flatMap((step, n) => (closesFilm(plan, step) ? [{ step, n }] : []));
  const inTime = (run: DayRun) =>
    closings.every(
      ({ step, n }) =>
        run.startMs[n]! <= (lastClosingStart(plan, step, run) ?? Number.POSITIVE_INFINITY),
    );
  const fromMiddle = finished
    .map((run, n) => ({ run, apart: Math.abs(n - middle) }))
    .sort((a, b) => a.apart - b.apart);
  return fromMiddle.find(({ run }) => inTime(run))?.run ?? finished[middle] ?? null;
}

/** Counted from the end of the bead, which is the last to skin over. */
function skinOf({ prepared }: DayPlan, { activity }: Step, doneMs: number): ClockRange | null {
  const product = activity.coats && prepared.productById.get(activity.coats.productId);
  if (product === undefined || product.rainAfter === null) return null;
  return readClock(product, prepared.doses(product.id, 'sheet'), doneMs).rainAfter;
}

function waitWords(run: DayRun, step: Step, fromMs: number, toMs: number): string {
  const rested = run.breakMs.some((ms) => ms >= fromMs && ms < toMs);
  if (rested) return 'break';
  if (step.closes !== null) return 'until touch dry: finger test decides';
  if (step.rest !== null) return 'the sheet relaxes';
  return 'for the weather or a film to be ready';
}
