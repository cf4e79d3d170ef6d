import { TASK_SHARES, withOwnRates, workerMin } from '../stages/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { DayBook } from './day-book.ts';
import type { DayPlan, Step } from './day-plan.ts';
import type { CloseUpShares } from './day-run.ts';
import { paceOn, ratesAt } from './pace.ts';

/** What closing up a roof at any moment is made of: each undone task leaves something open. */
export type OpenPart =
  | {
      readonly kind: 'bare' | 'loose';
      readonly n: number;
      readonly m2: number;
      readonly ms: number;
    }
  | { readonly kind: 'lap' | 'edge'; readonly n: number; readonly m: number; readonly ms: number }
  | { readonly kind: 'detail'; readonly n: number; readonly count: number; readonly ms: number };

/** Mastic or tape over a pipe, corner or cut not yet patched [worker-min each]; from memory. */
const DETAIL_MIN = 2;
/** Outlets cleared and seen running, rooms below looked at, photo of every open edge [min]; from memory. */
export const LAST_LOOK_MIN = { outlets: 2, below: 2, photo: 1 } as const;

const partsOf = new WeakMap<DayPlan, readonly OpenPart[]>();

/**
 * What is open for want of each task, with the crew's minutes to close it for the night.
 *
 * Sheet not yet bonded is turned down and weighted; a deck without sheet over it is sheeted; a lap, and an
 * edge not yet bonded or without its bar, is sealed on mastic or tape; a detail without its patch is
 * covered. Bonding removes its part and adds none, so that closing something never makes more to close.
 * @returns parts in the order of the day's list
 * @source rates of the trade for sheeting, night seal and laying out a sheet; see `labourRates`
 */
export function openParts(plan: DayPlan): readonly OpenPart[] {
  const before = partsOf.get(plan);
  if (before !== undefined) return before;
  const { prepared, steps, work, shift } = plan;
  const rates = ratesAt(withOwnRates(prepared.job.rates), paceOn(prepared, shift));
  const { people } = prepared.job.crew;
  const ms = (minutes: number): number => (minutes / people) * MS_PER_MINUTE;
  const barred = new Set(steps.filter(isBar).flatMap(({ after }) => after));
  const parts = steps.flatMap((step, n): OpenPart[] => {
    const { activity, closes } = step;
    const size = activity.quantity?.value ?? 0;
    const bonds = closes !== null || activity.runningFront !== undefined;
    if (activity.stage === 'field' && bonds) {
      const share = TASK_SHARES.sheetOut.relax;
      return [{ kind: 'loose', n, m2: size, ms: ms(workerMin(rates.sheetOut, size) * share) }];
    }
    const seal = ms(workerMin(rates.nightSeal, size));
    if (activity.stage === 'laps' && closes !== null)
      return [{ kind: 'lap', n, m: size, ms: seal }];
    const edge =
      isBar(step) ||
      activity.stage === 'night-seal' ||
      (activity.stage === 'perimeter' && closes !== null && !barred.has(n));
    if (edge) return [{ kind: 'edge', n, m: size, ms: seal }];
    if (activity.stage === 'details' && closes !== null)
      return [{ kind: 'detail', n, count: size, ms: ms(DETAIL_MIN * size) }];
    return [];
  });
  const placed = steps.findIndex(({ activity }) => activity.id === 'unroll');
  if (placed >= 0) {
    const m2 = work.bay.areaM2;
    const weighting = parts.reduce((sum, part) => (part.kind === 'loose' ? sum + part.ms : sum), 0);
    // Over what lies bare sheeting is weighted in place of the sheet.
    const sheeting = ms(workerMin(rates.sheeting, m2));
    parts.push({ kind: 'bare', n: placed, m2, ms: Math.max(0, sheeting - weighting) });
  }
  partsOf.set(plan, parts);
  return parts;
}

/** Without it the top of an upstand is open; where it is fixed, all it stands on is bonded. */
const isBar = ({ activity }: Step): boolean =>
  activity.stage === 'edge-fixings' && activity.forRainSafe;

/** The same as sums for a simulation, which asks at every turn. */
export function closeUpShares(plan: DayPlan): CloseUpShares {
  const openMs = new Float64Array(plan.steps.length);
  for (const part of openParts(plan)) openMs[part.n]! += part.ms;
  const filmMs = Float64Array.from(plan.steps, ({ closedBy, closingMs }) =>
    closedBy === null ? 0 : Math.max(0, closingMs - openMs[closedBy]!),
  );
  const looks = Object.values(LAST_LOOK_MIN).reduce((sum, minutes) => sum + minutes, 0);
  return { openMs, filmMs, alwaysMs: looks * MS_PER_MINUTE };
}

/**
 * At most what closing up takes in a run as it stands, were task `n` done, every film that lies open being
 * brought together. A roof that nothing has opened has nothing to close.
 */
export function closeUpMs(
  { openMs, filmMs, alwaysMs }: CloseUpShares,
  book: DayBook,
  n: number | null,
): number {
  let sum = alwaysMs;
  for (let k = 0; k < openMs.length; k += 1) {
    if (k !== n && !book.isDone(k)) sum += openMs[k]!;
  }
  for (const coat of book.waiting) {
    if (n === null || book.closingOf(coat) !== n) sum += filmMs[coat]!;
  }
  return n !== null && !book.isDone(n) ? sum + filmMs[n]! : sum;
}
