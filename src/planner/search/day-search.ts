import type { LocalDay } from '../../time/index.ts';
import type { DayOption } from '../day-option.ts';
import { type DayPlan, dayPlan } from '../day-plan.ts';
import type { Prepared } from '../prepare.ts';
import { type Shift, shiftOn } from '../shift.ts';
import { settled, trialsOf } from './best-start.ts';
import { knockOffs, until } from './light.ts';
import { Line } from './line.ts';
import { ordersOf } from './orders.ts';
import { planFor, planUntil } from './plan-for.ts';
import { screened } from './screen.ts';
import { fitsShift, Splits } from './splits.ts';
import type { Trials, TryLimits } from './trials.ts';
import { extraDaysCost } from './way.ts';

export type SearchDepth = DayOption['searched'];

/** Single runs a full search of one day may take; a count, so that the answer is the same anywhere. */
const MOST_RUNS = 6000;
const FEWEST_PEOPLE = 2;
/** A job is split into at most twice the laying days it needs, or into so many more where it needs few. */
const FEW_EXTRA = 2;

/** One day's best plan, or null where no start that day leaves time for the work. */
export function optionFor(
  prepared: Prepared,
  day: LocalDay,
  depth: SearchDepth = 'quick',
): DayOption | null {
  const search = DaySearch.of(prepared, day);
  if (search === null) return null;
  if (depth === 'quick') return search.quick();
  const steps = search.full();
  for (;;) {
    const next = steps.next();
    if (next.done) return next.value;
  }
}

const splitsOf = new WeakMap<Prepared, Splits>();

/** The search of one day: a quick answer first, then all ways of laying. It looks at no other day. */
export class DaySearch {
  readonly #prepared: Prepared;
  readonly #splits: Splits;
  readonly #shift: Shift;
  readonly #trials: Trials;
  /** Every list tried, in the order in which they are preferred where costs are hardly apart. */
  readonly #lines: Line[];
  readonly #usual: Line;
  /** Of a list as it stands: the same in other orders. */
  readonly #others = new Map<Line, Line[]>();
  #quick: DayOption | null = null;

  static of(prepared: Prepared, day: LocalDay): DaySearch | null {
    const search = new DaySearch(prepared, day);
    return search.#usual.starts.length === 0 ? null : search;
  }

  private constructor(prepared: Prepared, day: LocalDay) {
    this.#prepared = prepared;
    this.#splits = splitsOf.get(prepared) ?? new Splits(prepared);
    splitsOf.set(prepared, this.#splits);
    this.#shift = shiftOn(prepared.job.crew, day, prepared.job.site.timeZone);
    const plan = planFor(prepared, day);
    this.#usual = new Line(plan, 0);
    this.#trials = trialsOf(plan);
    this.#lines = [this.#usual];
  }

  /** The list as it stands, by the whole crew, from the likeliest starts. */
  quick(): DayOption {
    if (this.#quick !== null) return this.#quick;
    const { plan, bounds, starts } = this.#usual;
    for (const startMs of screened(plan, bounds, starts)) this.#trials.try(this.#usual, startMs);
    this.#trials.learnOrder();
    this.#quick = settled(this.#trials, this.#lines, 'quick');
    return this.#quick;
  }

  /** Yields after each list tried. */
  *full(): Generator<void, DayOption> {
    const quick = this.quick();
    if (this.#hopeless()) return quick;
    const trials = this.#trials;
    for (const startMs of this.#usual.starts) {
      trials.try(this.#usual, startMs, { most: trials.goodEnough });
    }
    yield;
    yield* this.#otherOrders(this.#usual);
    yield* this.#smallerBays();
    const { people } = this.#prepared.job.crew;
    for (let gang = people; gang >= FEWEST_PEOPLE; gang -= 1) yield* this.#laidBy(gang);
    this.#roundOff();
    return settled(trials, this.#lines, 'full');
  }

  /** Nowhere can the roof even be opened: nothing is cheaper than standing down. */
  #hopeless(): boolean {
    const { bounds, starts } = this.#usual;
    const { memberCount } = this.#trials;
    return starts.every((startMs) => {
      for (let m = 0; m < memberCount; m += 1) if (bounds.opens(startMs, m)) return false;
      return true;
    });
  }

  /**
   * One, two and more laying days than the job's own split needs, while what they cost allows. None of
   * these is cheaper than standing down; of the plans of a day that somebody wants to lay, one may be
   * the cheapest.
   */
  *#smallerBays(): Generator<void> {
    const { people } = this.#prepared.job.crew;
    const { memberCount } = this.#trials;
    const most = Math.max(FEW_EXTRA, this.#splits.own.bays);
    for (let extra = 1; extra <= most && !this.#spent(); extra += 1) {
      const extraCost = extraDaysCost(extra, this.#prepared.job.costs);
      if (extraCost * memberCount >= this.#trials.cheaper) return;
      const split = this.#splits.by(people, extra);
      if (split === null) return;
      const line = new Line(planUntil(split.prepared, this.#usual.plan.shift), extraCost);
      this.#lines.push(line);
      for (const startMs of line.starts) {
        this.#try(line, startMs, { most: this.#trials.cheaper, mustFinish: true });
      }
      yield;
    }
  }

  /** The job's own split laid by so many people of the crew, until each hour they may knock off. */
  *#laidBy(people: number): Generator<void> {
    const split = this.#splits.by(people, 0);
    if (split === null || !fitsShift(split, this.#shift)) return;
    const before = split === this.#splits.own ? [this.#usual] : [];
    for (const offMs of knockOffs(this.#prepared, this.#shift)) {
      if (this.#spent()) return;
      if (split === this.#splits.own && offMs === this.#usual.way.offMs) continue;
      const plan = planUntil(split.prepared, until(this.#shift, offMs));
      const line = new Line(plan, 0, 'as listed', before.findLast(sameListAs(plan)) ?? null);
      // Nor is any sooner hour of use.
      if (line.starts.length === 0) return;
      before.push(line);
      this.#lines.push(line);
      for (const startMs of line.starts) this.#try(line, startMs);
      yield;
      yield* this.#otherOrders(line);
    }
  }

  *#otherOrders(line: Line): Generator<void> {
    if (this.#spent()) return;
    if (line.starts.every((startMs) => line.least(startMs) >= this.#trials.better)) return;
    const others = this.#reordered(line);
    this.#others.set(line, others);
    for (const other of others) {
      this.#lines.push(other);
      for (const startMs of screened(other.plan, other.bounds, other.starts))
        this.#try(other, startMs);
      yield;
    }
  }

  /** The same list in the core's orders, which are the same until whenever the gang stays. */
  #reordered({ plan, extraCost, longer }: Line): Line[] {
    const before = longer === null ? undefined : this.#others.get(longer);
    if (before !== undefined) {
      return before.map((other) => {
        const sooner = { ...other.plan, shift: plan.shift };
        return new Line(sooner, extraCost, other.way.order, other);
      });
    }
    return ordersOf(plan).map(({ id, list }) => {
      const activities = list.map((n) => plan.work.activities[n]!);
      const other = dayPlan(plan.prepared, { ...plan.work, activities }, plan.shift);
      return new Line(other, extraCost, id);
    });
  }

  #try(line: Line, startMs: number, limits: TryLimits = { most: this.#trials.better }): void {
    if (!this.#spent()) this.#trials.try(line, startMs, limits);
  }

  #spent(): boolean {
    return this.#trials.runs >= MOST_RUNS;
  }

  /** Of the list chosen, earlier starts that cost hardly more have not been run in all forecasts yet. */
  #roundOff(): void {
    const { line, startMs } = this.#trials.choose(this.#lines).chosen;
    for (const earlier of line.starts) {
      if (earlier < startMs) this.#trials.try(line, earlier, { most: this.#trials.goodEnough });
    }
  }
}

/** Is a line's list this very one? Weather and crew are the same, but sections are sized for the hours. */
function sameListAs({ work }: DayPlan): (line: Line) => boolean {
  const list = JSON.stringify(work.activities);
  return (line) => JSON.stringify(line.plan.work.activities) === list;
}
