import { MS_PER_MINUTE } from '../units/index.ts';
import type { DayPlan } from './day-plan.ts';
import type { FoundWork } from './day-run.ts';
import { findTasks } from './work-names.ts';
import {
  LONGEST_RAIN_IN_MIN,
  type StateIssue,
  type StateSettled,
  type WorkState,
} from './work-state.ts';

/** Times are told to the minute. */
const TOLD_TO_MS = MS_PER_MINUTE;

/**
 * Work as told, put onto a day's list, or all that cannot be so.
 * @param atMs  the moment asked about; nothing told may lie after it
 * @param show  an instant in words, for sentences
 */
export function settleState(
  plan: DayPlan,
  state: WorkState,
  atMs: number,
  show: (ms: number) => string,
): StateSettled {
  return new Settling(plan, state, atMs, show).settle();
}

interface Known {
  startMs: number;
  /** NaN = not said. */
  doneMs: number;
}

class Settling {
  readonly #plan: DayPlan;
  readonly #state: WorkState;
  readonly #atMs: number;
  readonly #show: (ms: number) => string;
  readonly #issues: StateIssue[] = [];
  readonly #notes: string[] = [];
  readonly #done = new Map<number, Known>();
  readonly #latest = new Map<number, readonly [n: number, ms: number]>();
  readonly #touchDry: { n: number; atMs: number }[] = [];
  #inHand: FoundWork['inHand'] = null;

  constructor(plan: DayPlan, state: WorkState, atMs: number, show: (ms: number) => string) {
    this.#plan = plan;
    this.#state = state;
    this.#atMs = atMs;
    this.#show = show;
  }

  settle(): StateSettled {
    this.#takeCoated();
    this.#takeDone();
    this.#takeInHand();
    this.#checkSky();
    if (this.#issues.length === 0) {
      if (this.#state.implies) this.#fillIn();
      this.#checkOrder();
    }
    if (this.#issues.length > 0) return { ok: false, issues: this.#issues };
    const done = [...this.#done].sort(([a], [b]) => a - b);
    return {
      ok: true,
      found: {
        done: done.map(([n, { startMs, doneMs }]) => ({
          n,
          startMs,
          doneMs: Number.isNaN(doneMs) ? this.#unsaid(n) : doneMs,
        })),
        touchDry: this.#touchDry,
        inHand: this.#inHand,
      },
      notes: this.#notes,
    };
  }

  #say(about: StateIssue['about'], message: string): void {
    this.#issues.push({ about, message: `${about} ${message}.` });
  }

  #id(n: number): string {
    return this.#plan.steps[n]!.activity.id;
  }

  #takeCoated(): void {
    const { steps, prepared } = this.#plan;
    for (const { name, firstMs, lastMs, touchDryMs } of this.#state.coated) {
      const found = findTasks(this.#plan, name).filter(
        (n) => steps[n]!.activity.coats !== undefined,
      );
      const [n] = found;
      if (n === undefined || found.length > 1) {
        const many =
          found.length > 1
            ? `stands for ${found.length} films; name one`
            : `is no film on this day's list`;
        this.#say('coated', `names '${name}', which ${many}: ${this.#films()}`);
        continue;
      }
      if (this.#done.has(n) || this.#inHand?.n === n) {
        this.#say('coated', `names ${this.#id(n)} twice; a film is told once`);
        continue;
      }
      const fromMs = Math.max(this.#plan.shift.day.startMs, prepared.grid.startMs);
      const inTime =
        this.#isNow('coated', `${this.#id(n)} is coated`, firstMs) &&
        (lastMs === null || this.#isNow('coated', `the last of ${this.#id(n)} is coated`, lastMs));
      if (!inTime) continue;
      if (firstMs < fromMs) {
        this.#say(
          'coated',
          `says ${this.#id(n)} at ${this.#show(firstMs)}, before the day or the forecast begins; how it has dried is not known`,
        );
        continue;
      }
      if (lastMs !== null && lastMs < firstMs) {
        this.#say(
          'coated',
          `says the last of ${this.#id(n)} at ${this.#show(lastMs)}, before its first at ${this.#show(firstMs)}`,
        );
        continue;
      }
      const endMs = lastMs ?? firstMs + steps[n]!.durationMs;
      if (endMs > this.#atMs) this.#takeUp(n, firstMs, 'coated');
      else this.#done.set(n, { startMs: firstMs, doneMs: endMs });
      if (touchDryMs !== null && touchDryMs <= this.#atMs)
        this.#touchDry.push({ n, atMs: touchDryMs });
    }
  }

  #takeDone(): void {
    for (const { name, atMs } of this.#state.done) {
      const found = findTasks(this.#plan, name);
      if (found.length === 0) {
        this.#say(
          'done',
          `names '${name}', which is not on this day's list; names stand in the order of work with --json, such as ${this.#id(0)}`,
        );
        continue;
      }
      if (atMs !== null && !this.#isNow('done', `${name} is done`, atMs)) continue;
      for (const n of found) {
        // What is coated has its own time; being named among the done adds nothing.
        if (!this.#done.has(n))
          this.#done.set(n, { startMs: Number.NaN, doneMs: atMs ?? Number.NaN });
        if (this.#inHand?.n === n) this.#inHand = null;
      }
    }
  }

  #takeInHand(): void {
    const work = this.#state.inHand;
    if (work === null) return;
    const found = findTasks(this.#plan, work.name);
    const [n] = found;
    if (n === undefined || found.length > 1) {
      this.#say(
        'in-hand',
        `names '${work.name}', which ${found.length > 1 ? `stands for ${found.length} tasks; name one` : 'is not on this day’s list'}`,
      );
    } else if (this.#done.has(n)) {
      this.#say('in-hand', `names ${this.#id(n)}, which is told as done or coated too`);
    } else if (this.#isNow('in-hand', `${this.#id(n)} is begun`, work.startMs)) {
      this.#takeUp(n, work.startMs, 'in-hand');
    }
  }

  #takeUp(n: number, startMs: number, about: 'coated' | 'in-hand'): void {
    if (this.#inHand === null) this.#inHand = { n, startMs };
    else
      this.#say(
        about,
        `has ${this.#id(n)} still going on beside ${this.#id(this.#inHand.n)}; the crew is one gang and has one task in hand`,
      );
  }

  #checkSky(): void {
    const { thunderMs, rainInMin } = this.#state;
    if (thunderMs !== null && this.#isNow('thunder-at', 'thunder is heard', thunderMs)) {
      if (thunderMs < this.#plan.shift.day.startMs)
        this.#say('thunder-at', `is ${this.#show(thunderMs)}, which is not this day`);
    }
    if (rainInMin !== null && !(rainInMin >= 0 && rainInMin <= LONGEST_RAIN_IN_MIN))
      this.#say('rain-in', `is ${rainInMin} min; it must be from 0 to ${LONGEST_RAIN_IN_MIN}`);
  }

  #isNow(about: StateIssue['about'], what: string, ms: number): boolean {
    if (ms <= this.#atMs) return true;
    this.#say(
      about,
      `says ${what} at ${this.#show(ms)}, later than the moment asked about, ${this.#show(this.#atMs)}`,
    );
    return false;
  }

  /** A site log holds what was tapped: that a section was coated says what stood before it was done. */
  #fillIn(): void {
    const { steps } = this.#plan;
    const open = [...this.#done.keys(), ...(this.#inHand === null ? [] : [this.#inHand.n])];
    for (let n = open.pop(); n !== undefined; n = open.pop()) {
      for (const before of this.#waitsFor(n)) {
        if (this.#done.has(before)) continue;
        this.#done.set(before, { startMs: Number.NaN, doneMs: Number.NaN });
        open.push(before);
      }
      const { closedBy, film, activity } = steps[n]!;
      const unknown = Number.isNaN(this.#done.get(n)?.startMs ?? 0);
      if (film === null || closedBy === null || !unknown || this.#done.has(closedBy)) continue;
      if (open.includes(closedBy)) continue;
      this.#notes.push(
        `The log does not say when this was coated, nor that it is closed; it is taken as closed, so look at it: ${activity.title}.`,
      );
      this.#done.set(closedBy, { startMs: Number.NaN, doneMs: Number.NaN });
      open.push(closedBy);
    }
  }

  #waitsFor(n: number): readonly number[] {
    const { after, closes } = this.#plan.steps[n]!;
    return closes === null ? after : [...after, closes];
  }

  #checkOrder(): void {
    const { steps } = this.#plan;
    for (const [n, { startMs, doneMs }] of this.#done) {
      const { closes, closedBy, film } = steps[n]!;
      this.#checkBefore(n, Number.isNaN(startMs) ? doneMs : startMs, 'done');
      const closed = closedBy !== null && this.#done.has(closedBy);
      if (film !== null && closedBy !== null && !closed && Number.isNaN(startMs))
        this.#say(
          'done',
          `names ${this.#id(n)}, which lies open; say when it was coated: coated ${this.#id(n)}@10:40`,
        );
      if (closes !== null && doneMs < (this.#done.get(closes)?.doneMs ?? Number.NaN) - TOLD_TO_MS)
        this.#say(
          'done',
          `has ${this.#id(n)} closed at ${this.#show(doneMs)}, before it is coated`,
        );
    }
    if (this.#inHand !== null) this.#checkBefore(this.#inHand.n, this.#inHand.startMs, 'in-hand');
  }

  #checkBefore(n: number, ms: number, about: 'done' | 'in-hand'): void {
    const as = this.#state.coated.some(({ name }) => name === this.#id(n)) ? 'coated' : about;
    for (const before of this.#waitsFor(n)) {
      const [latest, latestMs] = this.#latestUpTo(before);
      if (!this.#done.has(before))
        this.#say(
          as,
          `has ${this.#id(n)}, which waits for ${this.#id(before)}, and that is not done; name it too, or ..${this.#id(before)} for all of the list up to it`,
        );
      else if (ms < latestMs - TOLD_TO_MS)
        this.#say(
          as,
          `has ${this.#id(n)} at ${this.#show(ms)}, before ${this.#id(latest)}, which it waits for, at ${this.#show(latestMs)}`,
        );
    }
  }

  /** Of a task and all it waits for, the last said to be done; -Infinity where none is said. */
  #latestUpTo(n: number): readonly [n: number, ms: number] {
    const told = this.#latest.get(n);
    if (told !== undefined) return told;
    const doneMs = this.#done.get(n)?.doneMs ?? Number.NaN;
    let latest: readonly [number, number] = [
      n,
      Number.isNaN(doneMs) ? Number.NEGATIVE_INFINITY : doneMs,
    ];
    for (const before of this.#waitsFor(n)) {
      const earlier = this.#latestUpTo(before);
      if (earlier[1] > latest[1]) latest = earlier;
    }
    this.#latest.set(n, latest);
    return latest;
  }

  /** Done some time before now: taken as just now, so that a rest is never cut short. */
  #unsaid(n: number): number {
    const { steps } = this.#plan;
    const rests = steps.some(({ rest }, k) => rest?.after === n && !this.#done.has(k));
    if (rests) {
      const { activity } = steps[n]!;
      this.#notes.push(
        `When this was done is not said, so its rest is counted from now: ${activity.title}.`,
      );
    }
    return this.#atMs;
  }

  #films(): string {
    const ids = this.#plan.steps.flatMap(({ activity }) =>
      activity.coats === undefined ? [] : [activity.id],
    );
    return ids.length > 6 ? `${ids.slice(0, 6).join(', ')} and so on` : ids.join(', ');
  }
}
