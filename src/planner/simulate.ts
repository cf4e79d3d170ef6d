import { MS_PER_MINUTE } from '../units/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import { nightAfter } from './cold-after.ts';
import type { DayPlan, Step } from './day-plan.ts';
import type { Cause, DayRun, OutcomeKind, RunFrom } from './day-run.ts';
import { expiresAt, fitsItsWindow, judgedWindow, readyAt } from './film-times.ts';
import { HeldLog } from './held-log.ts';
import { firstBroken } from './masks.ts';

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
  readonly #startMs: Float64Array;
  readonly #doneMs: Float64Array;
  readonly #knownEndMs: number;
  readonly #held = new HeldLog<Cause>();
  #t: number;
  #openedMs: number | null = null;
  #idleMs = 0;
  #redone = 0;
  #breaksTaken = 0;
  #left: number;

  constructor(plan: DayPlan, m: number, from: RunFrom) {
    this.#plan = plan;
    this.#m = m;
    this.#t = from.startMs;
    this.#startMs = new Float64Array(plan.steps.length).fill(Number.NaN);
    this.#doneMs = new Float64Array(plan.steps.length).fill(Number.NaN);
    this.#left = plan.steps.length;
    const { grid } = plan.prepared;
    this.#knownEndMs = stepStartMs(grid, grid.knownSteps[m]!);
    const firstToDo = from.fromIndex ?? 0;
    for (let n = 0; n < firstToDo; n += 1) {
      this.#doneMs[n] = from.startMs;
      this.#left -= 1;
      if (plan.steps[n]!.activity.opens) this.#openedMs = from.startMs;
    }
    while (
      this.#breaksTaken < plan.shift.breaks.length &&
      plan.shift.breaks[this.#breaksTaken]!.fromMs < from.startMs
    ) {
      this.#breaksTaken += 1;
    }
  }

  run(): DayRun {
    for (;;) {
      if (this.#left === 0) return this.#ended('finished', null, null);
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
    const rainSafeMs = this.#rainSafeMs();
    if (this.#openedMs === null) {
      const next = this.#doneMs.findIndex((done) => Number.isNaN(done));
      if (this.#t + this.#plan.steps[next]!.toRainSafeMs <= endMs) return null;
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
    if (next === undefined || this.#t < next.fromMs || this.#filmsWaiting().length > 0)
      return false;
    if (this.#t + next.lengthMs > this.#closeUpByMs()) return false;
    this.#breaksTaken += 1;
    this.#t += next.lengthMs;
    return true;
  }

  #workOrWait(): void {
    const waiting = this.#filmsWaiting();
    let soonestMs = Number.POSITIVE_INFINITY;
    let why: Cause | null = null;
    for (let n = 0; n < this.#plan.steps.length; n += 1) {
      if (!Number.isNaN(this.#doneMs[n]!)) continue;
      const step = this.#plan.steps[n]!;
      const readyMs = this.#readyMs(step);
      if (readyMs === null) continue;
      if (readyMs > this.#t) {
        soonestMs = Math.min(soonestMs, readyMs);
        continue;
      }
      const held = this.#heldBy(step, waiting);
      if (held === null) {
        this.#doStep(n, step);
        return;
      }
      why ??= held;
    }
    this.#waitUntil(soonestMs, why);
  }

  /** When an undone task's predecessors, rest and film let it start; null = not foreseeable yet. */
  #readyMs(step: Step): number | null {
    let ready = Number.NEGATIVE_INFINITY;
    for (const n of step.after) {
      const done = this.#doneMs[n]!;
      if (Number.isNaN(done)) return null;
      ready = Math.max(ready, done);
    }
    if (step.rest !== null) {
      const done = this.#doneMs[step.rest.after]!;
      if (Number.isNaN(done)) return null;
      ready = Math.max(ready, done + step.rest.lengthMs);
    }
    if (step.closes !== null) {
      const film = this.#plan.steps[step.closes]!.film;
      const coatedMs = this.#doneMs[step.closes]!;
      if (Number.isNaN(coatedMs)) return null;
      if (film !== null && film.readyMin > 0) {
        // The last square metre coated is the last to be touch dry.
        ready = Math.max(ready, readyAt(film, this.#m, coatedMs) ?? Number.POSITIVE_INFINITY);
      }
    }
    return ready;
  }

  #heldBy(step: Step, waiting: readonly number[]): Cause | null {
    const { grid } = this.#plan.prepared;
    const i = stepAt(grid, this.#t);
    const broken = step.mask.broken[this.#m * grid.steps + i]! & step.bits;
    // A film that is already down is closed whatever the wind or dew now say: leaving it is worse.
    if (broken !== 0 && step.closes === null) return firstBroken(step.mask, broken);
    if (this.#t + step.durationMs > this.#closeUpByMs(step)) return 'day-end';
    if (!fitsItsWindow(step, this.#m, this.#t)) return 'open-time';
    if (step.closes === null) {
      for (const coat of waiting) {
        if (
          this.#t + step.durationMs + this.#plan.steps[coat]!.closingMs >
          this.#judgedExpiryMs(coat)
        ) {
          return 'open-time';
        }
      }
    }
    return null;
  }

  /** Until when a waiting film is usable, judged from how fast it dries now. */
  #judgedExpiryMs(coat: number): number {
    const { readyMs, openMs } = judgedWindow(this.#plan.steps[coat]!.film!, this.#m, this.#t);
    return this.#startMs[coat]! + readyMs + openMs;
  }

  #doStep(n: number, step: Step): void {
    const goneOffMs = this.#goesOffAt(step);
    if (goneOffMs !== null && goneOffMs < this.#t + step.durationMs) {
      this.#t = Math.max(this.#t, goneOffMs);
      this.#redo(step.closes!);
      return;
    }
    this.#startMs[n] = this.#t;
    if (step.activity.opens && this.#openedMs === null) this.#openedMs = this.#t;
    this.#t += step.durationMs;
    this.#doneMs[n] = this.#t;
    this.#left -= 1;
  }

  /** The first square metre coated is the first to go off: closing must end before it does. */
  #goesOffAt(step: Step): number | null {
    if (step.closes === null) return null;
    const { film } = this.#plan.steps[step.closes]!;
    return film === null ? null : expiresAt(film, this.#m, this.#startMs[step.closes]!);
  }

  /** Scraped off; coating it again waits for the weather like any other coating. */
  #redo(coat: number): void {
    this.#redone += 1;
    this.#held.note('open-time', this.#t, 1);
    // The crew gives up on bonding today, or has no time left to scrape, and closes up.
    const scrapedMs = this.#t + SCRAPE_SHARE * this.#plan.steps[coat]!.durationMs;
    const untilMs = this.#redone > MAX_REDOS ? Number.POSITIVE_INFINITY : scrapedMs;
    this.#t = Math.max(this.#t, Math.min(untilMs, this.#closeUpByMs()));
    this.#startMs[coat] = Number.NaN;
    this.#doneMs[coat] = Number.NaN;
    this.#left += 1;
  }

  #waitUntil(soonestMs: number, why: Cause | null): void {
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

  /** When the crew must stop to leave time for the night seal, were `step` done by then. */
  #closeUpByMs(step: Step | null = null): number {
    const { shift, nightSealMs, steps } = this.#plan;
    if (this.#openedMs === null && step?.activity.opens !== true) return shift.endMs;
    const open = steps.some(
      (other, n) => other !== step && other.activity.forRainSafe && Number.isNaN(this.#doneMs[n]!),
    );
    return open ? shift.endMs - nightSealMs : shift.endMs;
  }

  #filmsWaiting(): number[] {
    const waiting: number[] = [];
    this.#plan.steps.forEach((step, n) => {
      if (step.closes === null || !Number.isNaN(this.#doneMs[n]!)) return;
      if (
        !Number.isNaN(this.#doneMs[step.closes]!) &&
        this.#plan.steps[step.closes]!.film !== null
      ) {
        waiting.push(step.closes);
      }
    });
    return waiting;
  }

  /** End of the last task the roof needs to be rain-safe, or null while one is open. */
  #rainSafeMs(): number | null {
    let last = Number.NEGATIVE_INFINITY;
    for (let n = 0; n < this.#plan.steps.length; n += 1) {
      if (!this.#plan.steps[n]!.activity.forRainSafe) continue;
      const done = this.#doneMs[n]!;
      if (Number.isNaN(done)) return null;
      last = Math.max(last, done);
    }
    return Number.isFinite(last) ? last : null;
  }

  /** Rain on open work between two moments ends the day. */
  #caughtBetween(fromMs: number, toMs: number): DayRun | null {
    if (this.#openedMs === null) return null;
    const { grid, nextRain } = this.#plan.prepared;
    const openFrom = Math.max(fromMs, this.#openedMs);
    const first = nextRain[this.#m * grid.steps + stepAt(grid, openFrom)] ?? grid.steps;
    const rainMs = Math.max(stepStartMs(grid, first), openFrom);
    if (first >= grid.steps || rainMs >= toMs) return null;
    const rainSafeMs = this.#rainSafeMs();
    if (rainSafeMs !== null && rainMs >= rainSafeMs) {
      // Rain-safe already: what is left waits for another dry spell.
      return null;
    }
    this.#t = rainMs;
    return this.#ended(this.#plan.underIsTight ? 'shortened' : 'caughtOpen', 'rain', rainMs);
  }

  #ended(kind: OutcomeKind, cause: Cause | null, causeMs: number | null): DayRun {
    const night = kind === 'finished' ? nightAfter(this.#plan, this.#m, this.#doneMs) : null;
    const rainSafeMs = this.#rainSafeMs();
    const run = {
      openedMs: this.#openedMs,
      // What the forecast does not reach is not known to be dry.
      rainSafeMs: rainSafeMs !== null && rainSafeMs <= this.#knownEndMs ? rainSafeMs : null,
      endMs: this.#t,
      idleMs: this.#idleMs,
      startMs: this.#startMs,
      doneMs: this.#doneMs,
      redone: this.#redone,
    };
    if (kind === 'unknown' || this.#t > this.#knownEndMs || night?.kind === 'unknown') {
      return { kind: 'unknown', cause: 'forecast-ends', causeMs: this.#knownEndMs, ...run };
    }
    if (night !== null)
      return { kind: 'shortened', cause: 'cold-night', causeMs: night.coatedMs, ...run };
    return { kind, cause, causeMs, ...run };
  }
}
