/**
 * Turns a running total into whole numbers a step, without the rounding adding up.
 * @param gains  what is gained in each step, 0 or more
 * @param floor  no step less than this one's
 * @param ceiling  no step more than this one's
 * @returns whole numbers whose running sum stays within about a half of the gains' own
 */
export function wholeSteps(
  gains: ArrayLike<number>,
  bounds: { readonly floor?: Int32Array; readonly ceiling?: Int32Array } = {},
): Int32Array {
  const whole = new Int32Array(gains.length);
  let owed = 0;
  for (let i = 0; i < gains.length; i += 1) {
    owed += gains[i]!;
    const low = bounds.floor?.[i] ?? 0;
    const high = bounds.ceiling?.[i] ?? Number.MAX_SAFE_INTEGER;
    const step = Math.max(low, Math.min(high, Math.round(owed)));
    whole[i] = step;
    owed -= step;
  }
  return whole;
}

/** Running totals of whole steps: [steps + 1], the first 0. */
export function runningTotal(steps: Int32Array): Float64Array {
  const total = new Float64Array(steps.length + 1);
  for (let i = 0; i < steps.length; i += 1) total[i + 1] = total[i]! + steps[i]!;
  return total;
}

/** A column of running totals on its steps. */
export interface Track {
  readonly startMs: number;
  readonly stepMs: number;
  readonly knownSteps: number;
  readonly total: Float64Array;
}

/**
 * Progress up to an instant, in units times milliseconds: whole numbers that no step rounds, so that
 * the parts of an interval always add up to the whole.
 * @param ms  within the known part, a whole number
 */
export function progressAt(track: Track, ms: number): number {
  const { startMs, stepMs, knownSteps, total } = track;
  const offMs = ms - startMs;
  const i = Math.min(Math.floor(offMs / stepMs), knownSteps);
  const before = total[i]! * stepMs;
  if (i >= knownSteps) return before;
  return before + (total[i + 1]! - total[i]!) * (offMs - i * stepMs);
}

export function endOf({ startMs, stepMs, knownSteps }: Track): number {
  return startMs + knownSteps * stepMs;
}

/**
 * When a film coated at `fromMs` has made `progress`, in units times milliseconds.
 * @returns whole epoch ms (the first at which it has), or null where the known part ends (or starts) first
 */
export function whenMade(track: Track, fromMs: number, progress: number): number | null {
  const { startMs, stepMs, knownSteps, total } = track;
  if (fromMs < startMs || fromMs > endOf(track)) return null;
  const target = progressAt(track, fromMs) + progress;
  if (total[knownSteps]! * stepMs < target) return null;
  let low = Math.min(Math.floor((fromMs - startMs) / stepMs), knownSteps);
  let high = knownSteps;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (total[middle]! * stepMs >= target) high = middle;
    else low = middle;
  }
  const gained = total[high]! - total[low]!;
  const share = gained > 0 ? Math.ceil((target - total[low]! * stepMs) / gained) : 0;
  return Math.max(fromMs, startMs + low * stepMs + Math.max(0, share));
}
