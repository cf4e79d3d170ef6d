import type { DayBook } from './day-book.ts';
import type { DayPlan, Step } from './day-plan.ts';
import { expiresAt, judgedWindow } from './film-times.ts';

/** A film by the index of its coating, and until when it is usable. */
interface OpenFilm {
  readonly coat: number;
  readonly expiresMs: number;
}

/** The films that lie open at moment `ms` of a run in member `m`, as its crew judges them then. */
export class OpenFilms {
  readonly #plan: DayPlan;
  readonly #m: number;
  readonly #book: DayBook;
  /** As last asked, for which films and when: within a turn it is asked again and again. */
  #judged: readonly OpenFilm[] = [];
  #of: readonly number[] | null = null;
  #atMs = Number.NaN;

  constructor(plan: DayPlan, m: number, book: DayBook) {
    this.#plan = plan;
    this.#m = m;
    this.#book = book;
  }

  /** Indices of their coatings, the one that goes off soonest first. */
  inOrder(ms: number): readonly number[] {
    const { waiting } = this.#book;
    return waiting.length < 2 ? waiting : this.#judgedAt(ms).map(({ coat }) => coat);
  }

  /** The gang closes one film after the other: all that lie open must still be usable in turn. */
  leaveTimeAfter(step: Step, ms: number): boolean {
    let doneMs = ms + step.durationMs;
    for (const { coat, expiresMs } of this.#judgedAt(ms)) {
      doneMs += this.#plan.steps[coat]!.closingMs;
      if (doneMs > expiresMs) return false;
    }
    return true;
  }

  #judgedAt(ms: number): readonly OpenFilm[] {
    const { waiting } = this.#book;
    if (this.#of === waiting && this.#atMs === ms) return this.#judged;
    const films = waiting.map((coat) => ({ coat, expiresMs: this.#judgedExpiryMs(coat, ms) }));
    if (films.length > 1) films.sort((a, b) => a.expiresMs - b.expiresMs);
    this.#judged = films;
    this.#of = waiting;
    this.#atMs = ms;
    return films;
  }

  /** Until when a waiting film is usable, judged from how fast it dries now. */
  #judgedExpiryMs(coat: number, ms: number): number {
    const { readyMs, openMs } = judgedWindow(this.#plan.steps[coat]!.film!, this.#m, ms);
    return this.#book.startMs[coat]! + readyMs + openMs;
  }

  /** The first square metre coated is the first to go off: closing must end before it does. */
  goesOffAt(step: Step): number | null {
    if (step.closes === null) return null;
    const { film } = this.#plan.steps[step.closes]!;
    const coatedMs = this.#book.startMs[step.closes]!;
    return film === null || Number.isNaN(coatedMs) ? null : expiresAt(film, this.#m, coatedMs);
  }
}
