import { MS_PER_MINUTE } from '../units/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import { nightAfter } from './cold-after.ts';
import { DayBook } from './day-book.ts';
import type { DayPlan, Step } from './day-plan.ts';
import type { Cause, DayRun, OutcomeKind, RunFrom } from './day-run.ts';
import { expiresAt, fitsItsWindow, judgedWindow } from './film-times.ts';
import { HeldLog } from './held-log.ts';
import { firstBroken, RULE_BIT, SAFETY_BITS } from './masks.ts';

/** Scraping a film off takes this share of the time to coat it (common practice). */
const SCRAPE_SHARE = 0.5;
const MAX_REDOS = 3;

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
  readonly #knownEndMs: number;
  readonly #untilRainSafe: boolean;
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
    this.#untilRainSafe = from.untilRainSafe ?? false;
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
      const stop = this.#closeUpIfLate(this.#plan.shift.endMs);
      if (stop !== null) return stop;
      if (!this.#takeBreak()) this.#workOrWait();
      const caught = this.#caughtBetween(before, this.#t);
      if (caught !== null) return caught;
    }
  }

  /** The day is over, or so nearly that only the night seal still fits. */
  #closeUpIfLate(endMs: number): DayRun | null {
    const rainSafeMs = this.#book.rainSafeMs();
    if (this.#book.openedMs === null) {
      if (this.#t + this.#plan.steps[this.#book.firstUndone()]!.toRainSafeMs <= endMs) return null;
      const cause = this.#held.main('day-end', this.#t);
      return this.#ended('stoodDown', cause.cause, cause.ms);
    }
    const needed = rainSafeMs === null ? this.#plan.nightSealMs : 0;
    if (this.#t < endMs - needed) return null;
    const cause = this.#held.main('day-end', this.#t);
    const caught = this.#caughtBetween(this.#t, this.#t + needed);
    if (caught !== null) return caught;
    this.#t += needed;
    return this.#ended('shortened', cause.cause, cause.ms);
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
  #workOrWait(): void {
    this.#soonestMs = Number.POSITIVE_INFINITY;
    this.#why = null;
    for (const coat of this.#openFilms()) {
      if (this.#didNow(this.#plan.steps[coat]!.closedBy!)) return;
    }
    for (let n = this.#book.firstUndone(); n < this.#plan.steps.length; n += 1) {
      if (!this.#book.isDone(n) && this.#didNow(n)) return;
    }
    this.#wait();
  }

  #openFilms(): readonly number[] {
    const { waiting } = this.#book;
    if (waiting.length < 2) return waiting;
    const expiry = new Map(waiting.map((coat) => [coat, this.#judgedExpiryMs(coat)]));
    return [...waiting].sort((a, b) => expiry.get(a)! - expiry.get(b)!);
  }

  /** Does a task if it may start now; else notes when it may, or what holds it. */
  #didNow(n: number): boolean {
    const step = this.#plan.steps[n]!;
    const readyMs = this.#readyMs(step);
    if (readyMs === null) return false;
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

  /** When an undone task's predecessors, rest and film let it start; null = not foreseeable yet. */
  #readyMs(step: Step): number | null {
    let ready = Number.NEGATIVE_INFINITY;
    for (const n of step.after) {
      const done = this.#book.doneMs[n]!;
      if (Number.isNaN(done)) return null;
      ready = Math.max(ready, done);
    }
    if (step.rest !== null) {
      const done = this.#book.doneMs[step.rest.after]!;
      if (Number.isNaN(done)) return null;
      ready = Math.max(ready, done + step.rest.lengthMs);
    }
    if (step.closes !== null) {
      if (!this.#book.isDone(step.closes)) return null;
      ready = Math.max(ready, this.#book.filmReadyMs(step.closes));
    }
    return ready;
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
    if (step.closes === null && !this.#leavesTimeToClose(step)) return 'open-time';
    return null;
  }

  /** The gang closes one film after the other: all that lie open then must still be usable in turn. */
  #leavesTimeToClose(step: Step): boolean {
    let doneMs = this.#t + step.durationMs;
    for (const coat of this.#openFilms()) {
      doneMs += this.#plan.steps[coat]!.closingMs;
      if (doneMs > this.#judgedExpiryMs(coat)) return false;
    }
    return true;
  }

  /** Until when a waiting film is usable, judged from how fast it dries now. */
  #judgedExpiryMs(coat: number): number {
    const { readyMs, openMs } = judgedWindow(this.#plan.steps[coat]!.film!, this.#m, this.#t);
    return this.#book.startMs[coat]! + readyMs + openMs;
  }

  #doStep(n: number, step: Step): void {
    const goneOffMs = this.#goesOffAt(step);
    if (goneOffMs !== null && goneOffMs < this.#t + step.durationMs) {
      this.#t = Math.max(this.#t, goneOffMs);
      this.#redo(step.closes!);
      return;
    }
    const startMs = this.#t;
    this.#t += step.durationMs;
    this.#book.done(n, startMs, this.#t);
  }

  /** The first square metre coated is the first to go off: closing must end before it does. */
  #goesOffAt(step: Step): number | null {
    if (step.closes === null) return null;
    const { film } = this.#plan.steps[step.closes]!;
    const coatedMs = this.#book.startMs[step.closes]!;
    return film === null || Number.isNaN(coatedMs) ? null : expiresAt(film, this.#m, coatedMs);
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

  /** When the crew must stop to leave time for the night seal, were task `n` done by then. */
  #closeUpByMs(n: number | null = null): number {
    const { shift, nightSealMs, steps } = this.#plan;
    const opensNow = n !== null && steps[n]!.activity.opens;
    if (this.#book.openedMs === null && !opensNow) return shift.endMs;
    return this.#book.opensBeside(n) ? shift.endMs - nightSealMs : shift.endMs;
  }

  /** Rain on open work between two moments ends the day. */
  #caughtBetween(fromMs: number, toMs: number): DayRun | null {
    if (this.#book.openedMs === null) return null;
    const { grid, nextRain } = this.#plan.prepared;
    const openFrom = Math.max(fromMs, this.#book.openedMs);
    const first = nextRain[this.#m * grid.steps + stepAt(grid, openFrom)] ?? grid.steps;
    const rainMs = Math.max(stepStartMs(grid, first), openFrom);
    if (first >= grid.steps || rainMs >= toMs) return null;
    const rainSafeMs = this.#book.rainSafeMs();
    if (rainSafeMs !== null && rainMs >= rainSafeMs) {
      // Rain-safe already: what is left waits for another dry spell.
      return null;
    }
    this.#t = rainMs;
    return this.#ended(this.#plan.underIsTight ? 'shortened' : 'caughtOpen', 'rain', rainMs);
  }

  #ended(kind: OutcomeKind, cause: Cause | null, causeMs: number | null): DayRun {
    // Of a day cut short the films that went down are asked too: unknown is not a cheaper way to end.
    const night =
      kind === 'finished' || kind === 'shortened'
        ? nightAfter(this.#plan, this.#m, this.#book.doneMs)
        : null;
    const rainSafeMs = this.#book.rainSafeMs();
    const run = {
      openedMs: this.#book.openedMs,
      // What the forecast does not reach is not known to be dry.
      rainSafeMs: rainSafeMs !== null && rainSafeMs <= this.#knownEndMs ? rainSafeMs : null,
      endMs: this.#t,
      idleMs: this.#idleMs,
      startMs: this.#book.startMs,
      doneMs: this.#book.doneMs,
      redone: this.#redone,
      laid: this.#book.laid,
      breakMs: this.#breakMs,
    };
    if (kind === 'unknown' || this.#t > this.#knownEndMs || night?.kind === 'unknown') {
      return { kind: 'unknown', cause: 'forecast-ends', causeMs: this.#knownEndMs, ...run };
    }
    if (night !== null && kind === 'finished')
      return { kind: 'shortened', cause: 'cold-night', causeMs: night.coatedMs, ...run };
    return { kind, cause, causeMs, ...run };
  }
}
