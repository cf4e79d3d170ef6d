import { MS_PER_MINUTE } from '../units/index.ts';
import { stepAt, stepStartMs } from '../weather/index.ts';
import {
  type CoreActivity,
  type CoreLag,
  type CoreProject,
  type CoreWindow,
  solveSchedule,
} from './core/index.ts';
import type { DayPlan, FilmClock, Step } from './day-plan.ts';
import { expiresAt, readyAt } from './film-times.ts';
import { SAFETY_BITS } from './masks.ts';
import { NIGHT } from './rules/index.ts';

/** The grid of the weather is the grid of the work. */
const PERIOD_MS = 5 * MS_PER_MINUTE;

/** Less than a period by so little is a matter of reckoning, not of time. */
const HAIR_MS = 1;

/**
 * How times that fall between two lines of the grid are put on it. `inside`: what keeps to the grid's
 * times keeps to the real ones. `outside`: what keeps to the real ones keeps to the grid's once each
 * start is moved back to the line before it, so that nothing real is better (for work whose tasks and
 * rests last whole periods).
 */
export type GridEdges = 'inside' | 'outside';

/** The best a crew could have done that knew the weather of the whole day beforehand. */
export type HindsightDay =
  | { readonly status: 'infeasible' | 'unknown' }
  | {
      readonly status: 'optimal';
      /** Per task of the plan [epoch ms]. */
      readonly startMs: readonly number[];
      /** Null where nothing on the list has to be done for the roof to be rain-safe. */
      readonly rainSafeMs: number | null;
      readonly endMs: number;
    };

/**
 * The earliest rain-safe end, and with it the earliest end, of a whole day's work in one forecast, when
 * its weather is known from the start: the mark no crew can beat. Finished means what it means to the
 * day's run: all done in working hours and in known weather, films closed inside their times, no rain
 * between opening and rain-safe, no cold night. The crew is one gang. Breaks are left out.
 * @param m        the forecast whose weather it is
 * @param startMs  first moment of work [epoch ms], on a five-minute line of the weather's grid
 * @param nodes    most decisions and dead ends of either search; past them the answer is 'unknown'
 * @throws RangeError when `startMs` lies between two lines or before the weather
 */
export function hindsightDay(
  plan: DayPlan,
  m: number,
  startMs: number,
  edges: GridEdges = 'inside',
  nodes = Number.POSITIVE_INFINITY,
): HindsightDay {
  const project = fixedFuture(plan, m, startMs, edges);
  const budget = { nodes };
  const msOf = (period: number): number => startMs + period * PERIOD_MS;
  const forRainSafe = plan.steps.map((step) => step.activity.forRainSafe);
  let rainSafe: number | null = null;
  if (forRainSafe.includes(true)) {
    const first = solveSchedule(
      {
        ...project,
        activities: project.activities.map((one, n) => ({ ...one, counts: forRainSafe[n]! })),
      },
      { budget },
    );
    if (first.status === 'infeasible') return { status: 'infeasible' };
    if (first.status !== 'optimal') return { status: 'unknown' };
    rainSafe = first.makespan!;
  }
  const by = rainSafe;
  const second = solveSchedule(
    {
      ...project,
      activities: project.activities.map((one, n) =>
        by === null || !forRainSafe[n]! ? one : { ...one, latestStart: by - one.duration },
      ),
    },
    { budget },
  );
  if (second.status === 'infeasible') return { status: 'infeasible' };
  if (second.status !== 'optimal') return { status: 'unknown' };
  return {
    status: 'optimal',
    startMs: second.starts!.map(msOf),
    rainSafeMs: rainSafe === null ? null : msOf(rainSafe),
    endMs: msOf(second.makespan!),
  };
}

/** A day's work in one known forecast as a project of the scheduling core; period 0 begins at `startMs`. */
export function fixedFuture(
  plan: DayPlan,
  m: number,
  startMs: number,
  edges: GridEdges,
): CoreProject {
  return new FixedFuture(plan, m, startMs, edges).project();
}

/** When a film coated at a moment is ready and gone off, worked out once for each moment. */
interface FilmTimes {
  readonly of: FilmClock;
  readonly readyMs: (coatedMs: number) => number | null;
  readonly goneMs: (coatedMs: number) => number | null;
}

function remember(at: (ms: number) => number | null): (ms: number) => number | null {
  const known = new Map<number, number | null>();
  return (ms) => {
    const before = known.get(ms);
    if (before !== undefined) return before;
    const made = at(ms);
    known.set(ms, made);
    return made;
  };
}

class FixedFuture {
  readonly #plan: DayPlan;
  readonly #m: number;
  readonly #startMs: number;
  readonly #outside: boolean;
  /** Step of the weather in which period 0 lies. */
  readonly #firstStep: number;
  /** Everything has ended by then [periods]. */
  readonly #last: number;
  readonly #durations: readonly number[];
  readonly #clocks: FilmTimes[] = [];

  constructor(plan: DayPlan, m: number, startMs: number, edges: GridEdges) {
    const { grid } = plan.prepared;
    const firstStep = stepAt(grid, startMs);
    if (grid.stepMs !== PERIOD_MS || firstStep < 0 || stepStartMs(grid, firstStep) !== startMs) {
      throw new RangeError(
        `startMs (${startMs}) must be on a five-minute line of the weather, from ${grid.startMs} on`,
      );
    }
    this.#plan = plan;
    this.#m = m;
    this.#startMs = startMs;
    this.#outside = edges === 'outside';
    this.#firstStep = firstStep;
    const endMs = Math.min(plan.shift.endMs, stepStartMs(grid, grid.knownSteps[m]!));
    this.#last = Math.floor((endMs - startMs) / PERIOD_MS);
    this.#durations = plan.steps.map((step) => up(step.durationMs));
  }

  project(): CoreProject {
    const { steps } = this.#plan;
    const activities = steps.map(
      (step, n): CoreActivity => ({
        duration: this.#durations[n]!,
        // One gang: whoever has nothing to do in one task does not begin another.
        demands: [1],
        allowedStarts: this.#starts(step, this.#durations[n]!),
      }),
    );
    const lags: CoreLag[] = [];
    const windows: CoreWindow[] = [];
    steps.forEach((step, n) => {
      for (const from of step.after) lags.push({ from, to: n, minLag: this.#durations[from]! });
      if (step.rest !== null) {
        const { after: from, lengthMs } = step.rest;
        lags.push({ from, to: n, minLag: this.#durations[from]! + up(lengthMs) });
      }
      if (step.closes !== null) {
        lags.push({ from: step.closes, to: n, minLag: this.#durations[step.closes]! });
        if (steps[step.closes]!.film !== null) windows.push(this.#filmWindow(step.closes, n));
      }
      if (step.activity.opens) windows.push(...this.#dryWindows(n));
    });
    return { activities, lags, windows, capacities: [1] };
  }

  /** Periods in which the rules let a task start and its night lets it have been done. */
  #starts(step: Step, duration: number): number[] {
    const { grid } = this.#plan.prepared;
    const { broken, turnsCold } = step.mask;
    const firstStep = this.#firstStep;
    const column = this.#m * grid.steps + firstStep;
    // A film that is down is closed whatever the weather, but for the safety of who closes it.
    const bits = step.closes === null ? step.bits : step.bits & SAFETY_BITS;
    const minds = step.film !== null && step.activity.rules.includes('cold-night');
    const { opens, forRainSafe } = step.activity;
    const starts: number[] = [];
    for (let s = 0; s + duration <= this.#last; s += 1) {
      if ((broken[column + s]! & bits) !== 0) continue;
      // Coated as the grid ends: the next cell is the first of another forecast.
      const night =
        firstStep + s + duration < grid.steps ? turnsCold?.[column + s + duration] : null;
      if (minds && turnsCold !== null && night !== NIGHT.warm) continue;
      if (opens && forRainSafe && this.#dryUntil(s) < s + duration) continue;
      starts.push(s);
    }
    return starts;
  }

  /** From when a coating started in each period is ready, and by when its closing must begin. */
  #filmWindow(coat: number, close: number): CoreWindow {
    const film = this.#plan.steps[coat]!.film!;
    const clocks = this.#clocksOf(film);
    const earliest: number[] = [];
    const latest: number[] = [];
    for (let s = 0; s < this.#last; s += 1) {
      const coatedMs = this.#msOf(s + this.#durations[coat]!);
      const readyMs = film.readyMin === 0 ? coatedMs : clocks.readyMs(coatedMs);
      const goneMs = clocks.goneMs(this.#msOf(this.#outside ? s + 1 : s));
      const ready = readyMs === null ? this.#last + 1 : this.#readyPeriod(readyMs);
      const gone = goneMs === null ? this.#last : down(goneMs - this.#startMs);
      earliest.push(ready);
      latest.push(Math.min(gone, this.#last) - this.#durations[close]!);
    }
    return { from: coat, to: close, earliest, latest };
  }

  /** Sections coated alike have the same clocks, whenever each of them is coated. */
  #clocksOf(film: FilmClock): FilmTimes {
    const { product, doses } = film;
    const known = this.#clocks.find(
      ({ of }) =>
        of.product === product &&
        of.doses.length === doses.length &&
        of.doses.every((table, n) => table === doses[n]),
    );
    if (known !== undefined) return known;
    const made: FilmTimes = {
      of: film,
      readyMs: remember((ms) => readyAt(film, this.#m, ms)),
      goneMs: remember((ms) => expiresAt(film, this.#m, ms)),
    };
    this.#clocks.push(made);
    return made;
  }

  #readyPeriod(ms: number): number {
    return this.#outside ? down(ms - this.#startMs) : up(ms - this.#startMs);
  }

  /** Once a roof is opened, all it needs to be rain-safe is done before rain next falls. */
  #dryWindows(opener: number): CoreWindow[] {
    const dryUntil = Array.from({ length: Math.max(0, this.#last) }, (_, s) => this.#dryUntil(s));
    const windows: CoreWindow[] = [];
    this.#plan.steps.forEach((step, to) => {
      if (!step.activity.forRainSafe || to === opener) return;
      windows.push({
        from: opener,
        to,
        earliest: dryUntil.map(() => 0),
        latest: dryUntil.map((end) => end - this.#durations[to]!),
      });
    });
    return windows;
  }

  /** End of the dry spell that a period lies in. */
  #dryUntil(period: number): number {
    const { grid, nextRain } = this.#plan.prepared;
    const step = nextRain[this.#m * grid.steps + this.#firstStep + period]!;
    return Math.min(this.#last, step - this.#firstStep);
  }

  #msOf(period: number): number {
    return this.#startMs + period * PERIOD_MS;
  }
}

const up = (ms: number): number => Math.ceil((ms - HAIR_MS) / PERIOD_MS);
const down = (ms: number): number => Math.floor((ms + HAIR_MS) / PERIOD_MS);
