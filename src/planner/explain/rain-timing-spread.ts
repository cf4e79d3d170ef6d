import { RAIN_TIMING_NOTE } from '../../weather/index.ts';
import type { DayOption } from '../day-option.ts';
import { type DayPlan, dayPlan } from '../day-plan.ts';
import type { DayRun } from '../day-run.ts';
import { type PrepareArgs, type Prepared, prepare } from '../prepare.ts';
import { simulateDay } from '../simulate.ts';

/** Share of forecasts that finish from one start, over several draws of when the rain falls. */
export interface RainTimingSpread {
  /** 0..1 */
  readonly low: number;
  readonly high: number;
  /** The two lie so far apart that nobody can call the day yet. */
  readonly tooEarly: boolean;
}

/** Draws further apart than this, and a day is too early to call. */
export const TOO_EARLY_SPREAD = 0.2;
const DRAWS = 4;

/** The same for one day; several are better asked together, see `rainTimingSpreads`. */
export function rainTimingSpread(
  args: PrepareArgs,
  option: DayOption,
  draws = DRAWS,
): RainTimingSpread | null {
  return rainTimingSpreads(args, [option], draws)[0]!;
}

/** All of `rainTimingDraws` in one go. */
export function rainTimingSpreads(
  args: PrepareArgs,
  options: readonly DayOption[],
  draws = DRAWS,
): readonly (RainTimingSpread | null)[] {
  const work = rainTimingDraws(args, options, draws);
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}

/**
 * How far days' shares of finished forecasts move with the hours in which rain falls, where the feed gives
 * it in sums of several hours and the hours are drawn: the same list from the same start on the roof under
 * the draw used and `draws` others. Each draw costs as much as preparing the roof anew; a generator, so
 * that a caller may stop.
 * @param args  what the days were found with
 * @returns in the order of the days; null where no rain timing is drawn, or no forecast reaches the
 *   end of the day
 */
export function* rainTimingDraws(
  args: PrepareArgs,
  options: readonly DayOption[],
  draws = DRAWS,
): Generator<void, readonly (RainTimingSpread | null)[]> {
  const drawn = options.filter(isDrawn);
  const shares = new Map(drawn.map((option) => [option, [shareAsFound(option)]]));
  for (let draw = 1; draw <= draws && drawn.length > 0; draw += 1) {
    const again = prepare({ ...args, draw: (args.draw ?? 0) + draw });
    for (const option of drawn) {
      shares.get(option)!.push(shareUnder(option, again));
      yield;
    }
  }
  return options.map((option) => spreadOf(shares.get(option) ?? []));
}

const isDrawn = ({ plan }: DayOption): boolean =>
  plan.prepared.grid.source.notes.includes(RAIN_TIMING_NOTE);

/** Where the cheapest start leads nowhere, that is for want of a start: draws are compared by the day's first. */
const startOf = ({ startMs, plan }: DayOption): number =>
  startMs ?? Math.max(plan.shift.startMs, plan.prepared.nowMs);

const shareAsFound = (option: DayOption): number | null =>
  option.startMs === null ? shareOn(option.plan, option) : shareFinished(option.runs);

/** The same list from the same start, on the roof under another draw. */
function shareUnder(option: DayOption, draw: Prepared): number | null {
  const { prepared, work, shift } = option.plan;
  const { job, products } = prepared;
  const laid = draw.variant({
    people: job.crew.people,
    products,
    costs: job.costs,
    ...(job.bayAreaM2 === null ? {} : { bayAreaM2: job.bayAreaM2 }),
  });
  return shareOn(dayPlan(laid, work, shift), option);
}

const shareOn = (plan: DayPlan, option: DayOption): number | null =>
  shareFinished(option.runs.map((_, m) => simulateDay(plan, m, { startMs: startOf(option) })));

/** null = no forecast reaches the end of the day. */
function shareFinished(runs: readonly Pick<DayRun, 'kind'>[]): number | null {
  const known = runs.filter(({ kind }) => kind !== 'unknown').length;
  return known === 0 ? null : runs.filter(({ kind }) => kind === 'finished').length / known;
}

function spreadOf(shares: readonly (number | null)[]): RainTimingSpread | null {
  const known = shares.filter((share) => share !== null);
  if (known.length === 0) return null;
  const [low, high] = [Math.min(...known), Math.max(...known)];
  return { low, high, tooEarly: high - low > TOO_EARLY_SPREAD + 1e-9 };
}
