import type { StageKind } from '../stages/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import { type AdjustedChance, adjustChance } from './chance.ts';
import { chooseStart } from './choose-start.ts';
import { countOutcomes, type OutcomeCounts, SLACK_SHARE } from './day-option.ts';
import type { DayPlan, Step } from './day-plan.ts';
import type { DayRun, FoundWork, WayOn } from './day-run.ts';
import { closeUpShares } from './now-close-up.ts';
import { rainForeseen } from './now-foreseen.ts';
import { simulateDay } from './simulate.ts';
import { idleCost, outcomeCost } from './value.ts';

/** Ways on from a moment, the one that gets most done first. */
export const WAYS = ['go-on', 'open-no-more', 'close-coated', 'wait', 'close-up'] as const;
export type WayId = (typeof WAYS)[number];

export interface WayResult {
  readonly id: WayId;
  readonly runs: readonly DayRun[];
  readonly outcomes: OutcomeCounts;
  /** In the job's own stated costs, a forecast. */
  readonly expectedCost: number;
}

/** What is known at the moment beside the work: the sky as a person sees and hears it. */
export interface SkyNow {
  readonly atMs: number;
  /** After thunder nobody is on the roof before this; -Infinity = none heard. */
  readonly offRoofUntilMs: number;
  /** Rain by the foreman's eye; Infinity = not said. */
  readonly rainMs: number;
}

/** All is closed so long before rain that somebody sees coming: an eye is no clock (from memory). */
export const RAIN_MARGIN_MS = 15 * MS_PER_MINUTE;
/** How long 'wait' waits before it goes on. */
export const WAIT_MS = 30 * MS_PER_MINUTE;

/** What may still be done once no new section is opened: the work on sheet that is bonded. */
const ON_BONDED: ReadonlySet<StageKind> = new Set([
  'laps',
  'perimeter',
  'details',
  'edge-fixings',
  'sealant',
  'night-seal',
  'check',
]);

const BEGINS: Readonly<Record<WayId, (step: Step) => boolean>> = {
  'go-on': () => true,
  'open-no-more': ({ activity, closes }) => closes !== null || ON_BONDED.has(activity.stage),
  'close-coated': ({ closes }) => closes !== null,
  wait: () => true,
  'close-up': () => false,
};

/** By when all that is open must be closed for the rain that a person sees coming; Infinity = not said. */
export const closedBefore = ({ rainMs }: SkyNow): number => rainMs - RAIN_MARGIN_MS;

/** What a crew in each forecast keeps to on a way, from what can be known at the moment only. */
export function wayOn(plan: DayPlan, id: WayId, sky: SkyNow): (m: number) => WayOn {
  const { prepared } = plan;
  const foreseen = rainForeseen(prepared, sky.atMs, 1 - prepared.job.confidence);
  const shares = closeUpShares(plan);
  const closedByMs = closedBefore(sky);
  const fromMs = Math.max(sky.atMs, sky.offRoofUntilMs);
  return (m) => {
    // Rain that is on the roof already is no longer to be got ahead of.
    const comesMs = foreseen[m]! > sky.atMs ? foreseen[m]! : Number.POSITIVE_INFINITY;
    return {
      begins: BEGINS[id],
      waitUntilMs: id === 'wait' ? fromMs + WAIT_MS : Number.NEGATIVE_INFINITY,
      closesUp: id !== 'go-on' && id !== 'wait',
      offRoofUntilMs: sky.offRoofUntilMs,
      closedByMs: id === 'open-no-more' ? Math.min(closedByMs, comesMs) : closedByMs,
      rainMs: sky.rainMs,
      openByMs: Math.min(closedByMs, comesMs),
      shares,
    };
  };
}

/** Every way on, run in every forecast. */
export function runWays(plan: DayPlan, found: FoundWork, sky: SkyNow): WayResult[] {
  return WAYS.map((id) => {
    const way = wayOn(plan, id, sky);
    const runs = Array.from({ length: plan.prepared.grid.memberCount }, (_, m) =>
      simulateDay(plan, m, { startMs: sky.atMs, found, way: way(m) }),
    );
    const costs = costsOf(plan, runs);
    return {
      id,
      runs,
      outcomes: countOutcomes(runs),
      expectedCost: costs.reduce((sum, cost) => sum + cost, 0) / costs.length,
    };
  });
}

function costsOf({ prepared, shift }: DayPlan, runs: readonly DayRun[]): number[] {
  const { costs } = prepared.job;
  const shiftMs = shift.endMs - shift.startMs;
  return runs.map((run) => outcomeCost(run, costs) + idleCost(run.idleMs, shiftMs, costs));
}

/** Rain ended it on work that lay open. */
const rainedIn = ({ kind, cause, causeMs, endMs }: DayRun): boolean =>
  kind === 'caughtOpen' || (kind === 'shortened' && cause === 'rain' && causeMs === endMs);

const mostlyRainedIn = ({ runs }: WayResult): boolean =>
  2 * runs.filter(rainedIn).length > runs.length;

/**
 * Of the ways that cost hardly more than the cheapest, the one that gets most done; with how often it
 * finishes once choosing the best of several is taken off. Where rain comes first on every way the costs
 * no longer tell them apart, though the less lies open the less gets wet: then it is closed up.
 */
export function chooseWay(
  plan: DayPlan,
  ways: readonly WayResult[],
): { readonly chosen: WayResult; readonly chance: AdjustedChance } {
  const { chosen, crossFit } = chooseStart(
    ways.map(({ runs }) => runs.map(({ kind }) => kind)),
    ways.map(({ runs }) => costsOf(plan, runs)),
    SLACK_SHARE * plan.prepared.job.costs.standDown,
  );
  const tooLate = ways.every(mostlyRainedIn) ? ways.find(({ id }) => id === 'close-up') : undefined;
  const way = tooLate ?? ways[chosen]!;
  const { finished, unknown } = way.outcomes;
  const of = way.runs.length - unknown;
  const made = plan.prepared.grid.source.madeFromOne === true;
  return {
    chosen: way,
    chance: adjustChance({
      count: finished,
      of,
      crossFit: tooLate === undefined ? crossFit : finished / Math.max(1, of),
      leadDays: 0,
      made,
    }),
  };
}
