import type { DayPlan, Step } from './day-plan.ts';
import type { FoundWork } from './day-run.ts';
import { readyAt } from './film-times.ts';
import { type ListLinks, linksOf } from './list-links.ts';

/**
 * What has been started and done so far in one run, with the few sums the simulation asks for at
 * every turn kept up to date instead of counted anew.
 */
export class DayBook {
  /** Per activity [epoch ms], NaN where it has not been reached. */
  readonly startMs: Float64Array;
  readonly doneMs: Float64Array;
  /** Coatings that lie open: coated, not yet closed, and with an open time. Another list after each change. */
  waiting: readonly number[] = [];
  openedMs: number | null = null;
  /** True once any film has been coated in this run. */
  laid = false;
  left: number;
  readonly #plan: DayPlan;
  readonly #m: number;
  readonly #links: ListLinks;
  /** Per coating: when its film is ready to be closed, NaN where it has not been asked. */
  readonly #readyMs: number[];
  /** Per activity: of what comes first, how much is not yet done. */
  readonly #undoneBefore: number[];
  #toRainSafe: number;
  #first = 0;
  #lastRainSafeMs = Number.NEGATIVE_INFINITY;

  constructor(plan: DayPlan, m: number) {
    const count = plan.steps.length;
    this.#plan = plan;
    this.#m = m;
    this.startMs = new Float64Array(count).fill(Number.NaN);
    this.doneMs = new Float64Array(count).fill(Number.NaN);
    this.#links = linksOf(plan.steps);
    this.#readyMs = this.#links.noTimes.slice();
    this.#undoneBefore = this.#links.before.slice();
    this.left = count;
    this.#toRainSafe = this.#links.forRainSafe;
  }

  isDone(n: number): boolean {
    return !Number.isNaN(this.doneMs[n]!);
  }

  /** Not done yet, and all that comes first is. */
  isNext(n: number): boolean {
    return this.#undoneBefore[n] === 0 && Number.isNaN(this.doneMs[n]!);
  }

  closingOf(coat: number): number | null {
    return this.#plan.steps[coat]!.closedBy;
  }

  firstUndone(): number {
    while (this.#first < this.doneMs.length && this.isDone(this.#first)) this.#first += 1;
    return this.#first;
  }

  /** @param startMs  NaN = done before this run began */
  done(n: number, startMs: number, doneMs: number): void {
    const step = this.#plan.steps[n]!;
    this.startMs[n] = startMs;
    this.doneMs[n] = doneMs;
    this.left -= 1;
    for (const follower of this.#links.followers[n]!) this.#undoneBefore[follower]! -= 1;
    if (step.activity.opens && this.openedMs === null) {
      this.openedMs = Number.isNaN(startMs) ? doneMs : startMs;
    }
    if (step.activity.forRainSafe) {
      this.#toRainSafe -= 1;
      this.#lastRainSafeMs = Math.max(this.#lastRainSafeMs, doneMs);
    }
    if (step.film !== null) this.laid = true;
    if (step.film !== null && step.closedBy !== null && !Number.isNaN(startMs))
      this.waiting = [...this.waiting, n];
    if (step.closes !== null) this.#noLongerWaiting(step.closes);
  }

  /** What was done before this run began. */
  takeOver({ done, touchDry }: FoundWork): void {
    for (const { n, startMs, doneMs } of done) this.done(n, startMs, doneMs);
    // A finger has felt it: no forecast knows better.
    for (const { n, atMs } of touchDry) this.#readyMs[n] = atMs;
  }

  /** A coating scraped off is to be done again. */
  undo(n: number): void {
    this.#first = Math.min(this.#first, n);
    this.startMs[n] = Number.NaN;
    this.doneMs[n] = Number.NaN;
    this.#readyMs[n] = Number.NaN;
    this.left += 1;
    for (const follower of this.#links.followers[n]!) this.#undoneBefore[follower]! += 1;
    if (this.#plan.steps[n]!.activity.forRainSafe) this.#toRainSafe += 1;
    this.#noLongerWaiting(n);
  }

  /** When what comes before a task, its rest and its film let it begin; only of one that is next. */
  readyMs(step: Step): number {
    let ready = Number.NEGATIVE_INFINITY;
    for (const n of step.after) ready = Math.max(ready, this.doneMs[n]!);
    if (step.rest !== null)
      ready = Math.max(ready, this.doneMs[step.rest.after]! + step.rest.lengthMs);
    return step.closes === null ? ready : Math.max(ready, this.filmReadyMs(step.closes));
  }

  /** When the film of a coating is ready to be closed; Infinity = not before the forecast ends. */
  filmReadyMs(coat: number): number {
    const known = this.#readyMs[coat]!;
    if (!Number.isNaN(known)) return known;
    const film = this.#plan.steps[coat]!.film;
    const coatedMs = this.doneMs[coat]!;
    // The last square metre coated is the last to be touch dry.
    const ready =
      film === null || film.readyMin === 0
        ? coatedMs
        : (readyAt(film, this.#m, coatedMs) ?? Number.POSITIVE_INFINITY);
    this.#readyMs[coat] = ready;
    return ready;
  }

  /** End of the last task the roof needs to be rain-safe, or null while one is open. */
  rainSafeMs(): number | null {
    if (this.#toRainSafe > 0 || !Number.isFinite(this.#lastRainSafeMs)) return null;
    return this.#lastRainSafeMs;
  }

  /** Would anything still keep the roof from being rain-safe, were task `n` done? */
  opensBeside(n: number | null): boolean {
    const itself =
      n !== null && !this.isDone(n) && this.#plan.steps[n]!.activity.forRainSafe ? 1 : 0;
    return this.#toRainSafe > itself;
  }

  #noLongerWaiting(coat: number): void {
    if (this.waiting.includes(coat)) this.waiting = this.waiting.filter((n) => n !== coat);
  }
}
