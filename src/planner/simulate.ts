import { MS_PER_MINUTE } from '../units/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import { calmFrom } from './calm-from.ts';
import { DayBook } from './day-book.ts';
import type { DayPlan, Step } from './day-plan.ts';
import type { Cause, DayRun, OutcomeKind, RunFrom, WayOn } from './day-run.ts';
import { fitsItsWindow, judgedWindow } from './film-times.ts';
import { HeldLog } from './held-log.ts';
import { bitsOf, firstBroken, RULE_BIT, SAFETY_BITS } from './masks.ts';
import { closeUpMs } from './now-close-up.ts';
import { OpenFilms } from './open-films.ts';
import { rainOnOpenWork } from './rain-on-open.ts';
import { runOf } from './run-end.ts';

/** Scraping a film off takes this share of the time to coat it (common practice). */
const SCRAPE_SHARE = 0.5;
const MAX_REDOS = 3;
/** Nobody is on the roof while one of these is broken. */
const OFF_ROOF_BITS = bitsOf(['roof-wind', 'lightning', 'daylight']);

/**
 * Runs a laying day in one member: the crew takes the first task on the list that may start now,
 * fills waits with later ones, and holds when a rule is broken. Every decision uses this member's
 * weather up to that moment only (and, for the night after, what the other members say); what comes
 * of it uses all of it.
 */
export function simulateDay(plan: DayPlan, m: number, from: RunFrom): DayRun {
  return new DaySimulation(plan, m, from).run();
}

class DaySimulation {
  readonly #plan: DayPlan;
  readonly #m: number;
  readonly #book: DayBook;
  readonly #films: OpenFilms;
  readonly #knownEndMs: number;
  readonly #untilRainSafe: boolean;
  readonly #fromMs: number;
  readonly #way: WayOn | null;
  /** When all that is open must be closed. */
  readonly #closedByMs: number;
  #inHand: { readonly n: number; readonly startMs: number } | null;
  readonly #held = new HeldLog<Cause>();
  #t: number;
  #idleMs = 0;
  #redone = 0;
  #breaksTaken = 0;
  readonly #breakMs: number[] = [];
  /** Of the turn at hand: when the next task can start, and what holds the first that could. */
  #soonestMs = 0;
  #why: Cause | null = null;

  constructor(plan: DayPlan, m: number, from: RunFrom) {
    this.#plan = plan;
    this.#m = m;
    this.#t = from.startMs;
    this.#book = new DayBook(plan, m);
    this.#films = new OpenFilms(plan, m, this.#book);
    this.#untilRainSafe = from.untilRainSafe ?? false;
    this.#fromMs = from.startMs;
    this.#way = from.way ?? null;
    this.#closedByMs = Math.min(plan.shift.endMs, from.way?.closedByMs ?? plan.shift.endMs);
    if (from.found !== undefined) this.#book.takeOver(from.found);
    this.#inHand = from.found?.inHand ?? null;
    const { grid } = plan.prepared;
    this.#knownEndMs = stepStartMs(grid, grid.knownSteps[m]!);
    for (let n = 0; n < (from.fromIndex ?? 0); n += 1) this.#book.done(n, Number.NaN, from.startMs);
    while (
      this.#breaksTaken < plan.shift.breaks.length &&
      plan.shift.breaks[this.#breaksTaken]!.fromMs <= from.startMs
    ) {
      this.#breaksTaken += 1;
    }
  }

  run(): DayRun {
    for (;;) {
      if (this.#book.left === 0 || (this.#untilRainSafe && this.#book.rainSafeMs() !== null)) {
        return this.#ended('finished', null, null);
      }
      const known = this.#t >= this.#plan.prepared.grid.startMs && this.#t < this.#knownEndMs;
      if (!known) return this.#ended('unknown', null, null);
      const before = this.#t;
      if (!this.#stayOff()) {
        const stop = this.#closeUpIfLate(this.#closedByMs) ?? this.#onTheRoof();
        if (stop !== null) return stop;
      }
      const caught = this.#caughtBetween(before, this.#t);
      if (caught !== null) return caught;
    }
  }

  /** Thunder: nobody is on the roof, whatever goes off meanwhile. */
  #stayOff(): boolean {
    const untilMs = this.#way?.offRoofUntilMs ?? Number.NEGATIVE_INFINITY;
    if (this.#t >= untilMs) return false;
    this.#idleMs += untilMs - this.#t;
    this.#t = untilMs;
    return true;
  }

  #onTheRoof(): DayRun | null {
    if (this.#inHand === null)
      return this.#takeBreak() || this.#workOrWait() ? null : this.#closeUp();
    const { n, startMs } = this.#inHand;
    this.#inHand = null;
    const step = this.#plan.steps[n]!;
    this.#doStep(n, step, startMs, Math.max(0, startMs + step.durationMs - this.#fromMs));
    return null;
  }

  /** The day is over, or so nearly that only closing up still fits. */
  #closeUpIfLate(endMs: number): DayRun | null {
    if (this.#book.openedMs === null) {
      const next = this.#plan.steps[this.#inHand?.n ?? this.#book.firstUndone()]!;
      const inTime = this.#t < endMs && this.#t + next.toRainSafeMs <= endMs;
      return inTime ? null : this.#closeUp();
    }
    return this.#t < endMs - this.#closeUpMs(null) ? null : this.#closeUp();
  }

  #closeUp(): DayRun {
    const early = this.#closedByMs < this.#plan.shift.endMs;
    const { cause, ms } = this.#held.main(early ? 'rain' : 'day-end', this.#t);
    if (this.#book.openedMs === null) return this.#ended('stoodDown', cause, ms);
    const fromMs = this.#way === null ? this.#t : calmFrom(this.#plan, this.#m, this.#t);
    const doneMs = fromMs + this.#closeUpMs(null);
    const caught = this.#caughtBetween(this.#t, doneMs);
    if (caught !== null) return caught;
    this.#idleMs += fromMs - this.#t;
    this.#t = doneMs;
    return this.#ended('shortened', cause, ms);
  }

  /** What closing up takes, were task `n` done: by what lies open, else by the whole outline. */
  #closeUpMs(n: number | null): number {
    if (!this.#book.opensBeside(n)) return 0;
    if (this.#way === null) return this.#plan.nightSealMs;
    return closeUpMs(this.#way.shares, this.#book, n);
  }

  /** No break starts while a coated film is waiting. */
  #takeBreak(): boolean {
    const next = this.#plan.shift.breaks[this.#breaksTaken];
    if (next === undefined || this.#t < next.fromMs || this.#book.waiting.length > 0) return false;
    if (this.#t + next.lengthMs > this.#closeUpByMs()) return false;
    this.#breaksTaken += 1;
    this.#breakMs.push(this.#t);
    this.#t += next.lengthMs;
    return true;
  }

  /**
   * Films that lie open are closed first, the one that goes off soonest before the others; then the
   * list is taken in order.
   */
  #workOrWait(): boolean {
    const waitUntilMs = this.#way?.waitUntilMs ?? this.#t;
    this.#soonestMs = waitUntilMs > this.#t ? waitUntilMs : Number.POSITIVE_INFINITY;
    this.#why = null;
    for (const coat of this.#films.inOrder(this.#t)) {
      if (this.#didNow(this.#plan.steps[coat]!.closedBy!)) return true;
    }
    const onlyCloses = waitUntilMs > this.#t;
    for (let n = this.#book.firstUndone(); n < this.#plan.steps.length; n += 1) {
      if (onlyCloses && this.#plan.steps[n]!.closes === null) continue;
      if (this.#didNow(n)) return true;
    }
    const nothingLeft = this.#why === null && this.#soonestMs === Number.POSITIVE_INFINITY;
    if (nothingLeft && this.#way?.closesUp === true && !this.#keptOff()) return false;
    this.#wait();
    return true;
  }

  /** Wind or darkness in which nobody is on the roof, not even to close up. */
  #keptOff(): boolean {
    const { grid } = this.#plan.prepared;
    const at = this.#m * grid.steps + stepAt(grid, this.#t);
    const { mask } = this.#plan.steps[0]!;
    const broken = mask.broken[at]! & OFF_ROOF_BITS;
    if (broken !== 0) this.#why = firstBroken(mask, broken);
    return broken !== 0;
  }

  /** Does a task if it may start now; else notes when it may, or what holds it. */
  #didNow(n: number): boolean {
    if (!this.#book.isNext(n)) return false;
    const step = this.#plan.steps[n]!;
    if (this.#way?.begins(step) === false) return false;
    const readyMs = this.#book.readyMs(step);
    if (readyMs > this.#t) {
      this.#soonestMs = Math.min(this.#soonestMs, readyMs);
      return false;
    }
    const held = this.#heldBy(n, step);
    if (held === null) {
      this.#doStep(n, step);
      return true;
    }
    this.#why ??= held;
    return false;
  }

  #heldBy(n: number, step: Step): Cause | null {
    const { grid } = this.#plan.prepared;
    const i = stepAt(grid, this.#t);
    const broken = step.mask.broken[this.#m * grid.steps + i]! & step.bits;
    // A film that is already down is closed whatever the dew or humidity now say, since leaving it is
    // worse; but nobody is sent into wind or darkness to save it.
    const holding = step.closes === null ? broken : broken & SAFETY_BITS;
    if (holding !== 0) return firstBroken(step.mask, holding);
    // Nothing is opened for a film that tonight already rules out.
    const tonight = (step.opensFor?.broken[this.#m * grid.steps + i] ?? 0) & RULE_BIT['cold-night'];
    if (step.opensFor !== null && tonight !== 0) return firstBroken(step.opensFor, tonight);
    if (this.#t + step.durationMs > this.#closeUpByMs(n)) return 'day-end';
    if (!fitsItsWindow(step, this.#m, this.#t)) return 'open-time';
    if (step.closes === null && !this.#films.leaveTimeAfter(step, this.#t)) return 'open-time';
    return this.#opensTooMuch(n, step) ? 'rain' : null;
  }

  /** Nothing is opened that could not be closed again before the rain that is foreseen. */
  #opensTooMuch(n: number, step: Step): boolean {
    if (this.#way === null || (step.film === null && !step.activity.opens)) return false;
    const { openByMs } = this.#way;
    if (this.#t >= openByMs || openByMs === Number.POSITIVE_INFINITY) return false;
    const waitMs = step.film === null ? 0 : judgedWindow(step.film, this.#m, this.#t).readyMs;
    return this.#t + step.durationMs + waitMs + this.#closeUpMs(n) > openByMs;
  }

  #doStep(n: number, step: Step, startMs = this.#t, leftMs = step.durationMs): void {
    const goneOffMs = this.#films.goesOffAt(step);
    if (goneOffMs !== null && goneOffMs < this.#t + leftMs) {
      this.#t = Math.max(this.#t, goneOffMs);
      this.#redo(step.closes!);
      return;
    }
    this.#t += leftMs;
    this.#book.done(n, startMs, this.#t);
  }

  /** Scraped off; coating it again waits for the weather like any other coating. */
  #redo(coat: number): void {
    this.#redone += 1;
    this.#held.note('open-time', this.#t, 1);
    // The crew gives up on bonding today, or has no time left to scrape, and closes up.
    const scrapedMs = this.#t + SCRAPE_SHARE * this.#plan.steps[coat]!.durationMs;
    const untilMs = this.#redone > MAX_REDOS ? Number.POSITIVE_INFINITY : scrapedMs;
    this.#t = Math.max(this.#t, Math.min(untilMs, this.#closeUpByMs()));
    this.#book.undo(coat);
  }

  #wait(): void {
    const soonestMs = this.#soonestMs;
    const why = this.#why;
    const { grid } = this.#plan.prepared;
    const nextStepMs = stepStartMs(grid, stepAt(grid, this.#t) + 1);
    // Held by the weather: look again in five minutes. Waiting for a film or a rest: until then.
    const lookMs = why === null ? soonestMs : Math.min(soonestMs, nextStepMs);
    const untilMs = Math.min(Math.max(lookMs, this.#t + MS_PER_MINUTE), this.#closeUpByMs());
    const waited = untilMs - this.#t;
    // That the day runs out is said where nothing else held the crew up.
    if (why !== null && why !== 'day-end') this.#held.note(why, this.#t, waited);
    this.#idleMs += waited;
    this.#t = untilMs;
  }

  /** When the crew must stop to leave time for closing up, were task `n` done by then. */
  #closeUpByMs(n: number | null = null): number {
    const opensNow = n !== null && this.#plan.steps[n]!.activity.opens;
    if (this.#book.openedMs === null && !opensNow) return this.#closedByMs;
    return this.#closedByMs - this.#closeUpMs(n);
  }

  /** Rain on open work between two moments ends the day. */
  #caughtBetween(fromMs: number, toMs: number): DayRun | null {
    const seenMs = this.#way?.rainMs ?? Number.POSITIVE_INFINITY;
    const rainMs = rainOnOpenWork(this.#plan, this.#m, this.#book, fromMs, toMs, seenMs);
    if (rainMs === null) return null;
    this.#t = rainMs;
    return this.#ended(this.#plan.underIsTight ? 'shortened' : 'caughtOpen', 'rain', rainMs);
  }

  #ended(kind: OutcomeKind, cause: Cause | null, causeMs: number | null): DayRun {
    return runOf(this.#plan, this.#m, this.#book, this.#knownEndMs, {
      kind,
      cause,
      causeMs,
      endMs: this.#t,
      idleMs: this.#idleMs,
      redone: this.#redone,
      breakMs: this.#breakMs,
    });
  }
}
