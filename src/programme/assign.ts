import { type Calendar, calendarOf } from './calendar.ts';
import { whyLeftOut } from './left-out.ts';
import { type Option, type Packing, packingOf } from './packing.ts';
import { optionOf, placedVisit, visitAt } from './placements.ts';
import {
  type PackingFound,
  type SearchBudget,
  searchPacking,
  USUAL_BUDGET,
} from './search-packing.ts';
import type { SolveSmall } from './small-program.ts';
import type { LeftOut, PlacedVisit, ProgrammeAsk } from './types.ts';
import { visitsOf } from './visits.ts';
import { leftOutWorth, visitWorth } from './worth.ts';

export interface AssignOptions {
  readonly budget?: Partial<SearchBudget>;
  readonly seed: number;
  readonly shouldStop?: () => boolean;
  readonly solve?: SolveSmall;
}

export interface SearchReport {
  /** Nothing is worth more than this. */
  readonly bound: number;
  /** The bound less the value found. */
  readonly gap: number;
  /** The gap over the most that the programme can bring above leaving everything out, 0..1. */
  readonly gapShare: number;
  readonly proven: boolean;
  readonly iterations: number;
  readonly boundSteps: number;
  readonly solverCalls: number;
  readonly options: number;
  /** Of them, those that could still be part of something better. */
  readonly optionsLeft: number;
}

export interface Assigned {
  /** Jobs and fillers placed, in order of crew, then of date. */
  readonly visits: readonly PlacedVisit[];
  readonly leftOut: readonly LeftOut[];
  /** Worth of all visits and of all that is left out. */
  readonly value: number;
  readonly search: SearchReport;
}

/**
 * Which crew lays which roof on which days: the largest expected value found, and how far it can
 * be from the largest there is.
 * @throws Error naming every fault of the question
 */
export function assign(ask: ProgrammeAsk, options: AssignOptions): Assigned {
  const calendar = calendarOf(ask);
  const { packing, base } = packingFor(calendar);
  const found = searchPacking(packing, {
    dayCount: calendar.dayCount,
    budget: { ...USUAL_BUDGET, ...options.budget },
    seed: options.seed,
    shouldStop: options.shouldStop ?? (() => false),
    solve: options.solve ?? null,
    start: null,
  });
  const visits: PlacedVisit[] = [];
  const leftOut: LeftOut[] = [];
  found.options.forEach((option, t) => {
    const task = calendar.tasks[t]!;
    if (option < 0) leftOut.push(whyLeftOut(calendar, task));
    else visits.push(placedVisit(calendar, task, visitAt(calendar, packing, option)));
  });
  const crewAt = calendar.crewIndex;
  visits.sort(
    (a, b) => crewAt.get(a.crewId)! - crewAt.get(b.crewId)! || (a.dates[0]! < b.dates[0]! ? -1 : 1),
  );
  const value = base + found.value;
  return { visits, leftOut, value, search: reportOf(found, packing, base) };
}

/** Every visit that is worth more than leaving its task out; `base` is the worth of leaving all out. */
function packingFor(calendar: Calendar): { readonly packing: Packing; readonly base: number } {
  let base = 0;
  const options = calendar.tasks.map((task): Option[] => {
    const without = leftOutWorth(calendar, task);
    base += without;
    return visitsOf(calendar, task).map((visit) =>
      optionOf(calendar, visit, visitWorth(calendar, task, visit.crew, visit.days).total - without),
    );
  });
  return { packing: packingOf(options, calendar.slotCount), base };
}

export function reportOf(found: PackingFound, packing: Packing, base: number): SearchReport {
  const gap = found.proven ? 0 : found.bound - found.value;
  return {
    bound: base + found.value + gap,
    gap,
    gapShare: found.bound > 0 ? gap / found.bound : 0,
    proven: found.proven,
    iterations: found.iterations,
    boundSteps: found.boundSteps,
    solverCalls: found.solverCalls,
    options: packing.optionCount,
    optionsLeft: found.optionsLeft,
  };
}
