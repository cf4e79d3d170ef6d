import { MS_PER_HOUR } from '../../units/index.ts';
import { stepAt, stepStartMs } from '../../weather/index.ts';
import type { Prepared } from '../prepare.ts';
import { daysFrom } from '../rules/daylight.ts';
import type { Shift } from '../shift.ts';

/**
 * The light a shift has [epoch ms], from before it to after it; null where it lies in the dark. Light that
 * lasts to the end of the forecast is not known to end.
 */
export function lightOn(
  { grid }: Prepared,
  shift: Shift,
): { readonly fromMs: number; readonly untilMs: number } | null {
  const first = Math.max(0, stepAt(grid, shift.day.startMs));
  for (const { from, to } of daysFrom(grid, first)) {
    const untilMs = to < grid.steps ? stepStartMs(grid, to) : Number.POSITIVE_INFINITY;
    const span = { fromMs: stepStartMs(grid, from), untilMs };
    if (span.untilMs > shift.startMs) return span.fromMs < shift.endMs ? span : null;
  }
  return null;
}

/**
 * When a gang may knock off, latest first: at the end of the shift or at last light, and whole hours
 * before either, but never after one of them. So a day with one more hour, of work or of usable light, has
 * all that the shorter day had. Light that lasts over an hour past the shift is of no use.
 */
export function knockOffs(prepared: Prepared, shift: Shift): number[] {
  const darkMs = lightOn(prepared, shift)?.untilMs ?? Number.POSITIVE_INFINITY;
  const latestMs = Math.min(shift.endMs, darkMs);
  const marks = new Set<number>();
  const ends = darkMs - MS_PER_HOUR <= shift.endMs ? [shift.endMs, darkMs] : [shift.endMs];
  for (const endMs of ends) {
    const hours = Math.ceil(Math.max(0, endMs - latestMs) / MS_PER_HOUR);
    for (let ms = endMs - hours * MS_PER_HOUR; ms > shift.startMs; ms -= MS_PER_HOUR) marks.add(ms);
  }
  return [...marks].sort((a, b) => b - a);
}

/** The shift of a gang that knocks off sooner. */
export function until(shift: Shift, offMs: number): Shift {
  if (offMs === shift.endMs) return shift;
  return { ...shift, endMs: offMs, breaks: shift.breaks.filter(({ fromMs }) => fromMs < offMs) };
}
