import { type LayingBay, layingBays } from '../../roof/index.ts';
import { MS_PER_MINUTE } from '../../units/index.ts';
import { nextBayBasis } from '../bays.ts';
import type { DayOption } from '../day-option.ts';
import type { Prepared } from '../prepare.ts';
import { bestStart } from '../search/best-start.ts';
import { planFor } from '../search/plan-for.ts';
import { valueFigures } from '../value.ts';
import { startsOver } from './starts.ts';

/** Starts tried for a bay on a day that was looked at for another bay. */
const START_EVERY_MS = 150 * MS_PER_MINUTE;

/**
 * How each bay of one split goes on each day in each forecast, worked out when first asked for. Bays that
 * are alike share a plan, and the bay that a day was looked at for is laid as found.
 */
export class BayRuns {
  readonly bays: readonly LayingBay[];
  readonly #prepared: Prepared;
  readonly #found = new Map<string, DayOption | null>();
  readonly #laidUpTo = new Map<string, Prepared>();

  /** @param prepared  laid by the split in question */
  constructor(prepared: Prepared) {
    this.#prepared = prepared;
    const { job, products } = prepared;
    this.bays = layingBays(job.roof, nextBayBasis(job, products).bayAreaM2);
  }

  /** A bay's day as found; null where no start leads anywhere. */
  on(bay: number, option: DayOption): DayOption | null {
    const { alike } = this.bays[bay]!;
    const { work } = option.plan;
    const looked = this.bays[work.bay.number - 1];
    if (work.bay.of === this.bays.length && looked?.alike === alike) {
      return option.startMs === null ? null : option;
    }
    const key = `${option.day.date} ${alike}`;
    const known = this.#found.get(key);
    if (known !== undefined) return known;
    const plan = planFor(this.#upTo(bay, alike), option.day);
    const starts = startsOver(plan, START_EVERY_MS);
    const found = starts.length === 0 ? null : bestStart(plan, starts);
    const laid = found?.startMs == null ? null : found;
    this.#found.set(key, laid);
    return laid;
  }

  /** The same roof with the bays before this one laid. */
  #upTo(bay: number, alike: string): Prepared {
    const { job } = this.#prepared;
    const known = this.#laidUpTo.get(alike) ?? {
      ...this.#prepared,
      job: { ...job, baysDone: bay },
    };
    this.#laidUpTo.set(alike, known);
    return known;
  }
}

/**
 * Nobody opens up on a day on which more of the other forecasts are caught open than the cost-loss rule
 * bears: what a forecast's own day will bring, its crew does not know.
 */
export function tooLikelyCaught({ outcomes, runs, plan }: DayOption, m: number): boolean {
  const own = runs[m]!.kind;
  const of = runs.length - outcomes.unknown - (own === 'unknown' ? 0 : 1);
  const count = outcomes.caughtOpen - (own === 'caughtOpen' ? 1 : 0);
  if (of === 0) return false;
  const { job, grid } = plan.prepared;
  const made = grid.source.madeFromOne === true;
  const { caughtChance, threshold } = valueFigures(job.costs, { count, of, made });
  return (caughtChance ?? 0) > threshold;
}
