import type { WorkAnswer } from '../../../src/contract/index.ts';

export const HOUR_MS = 3_600_000;
/** Hours of weather shown before the first and after the last piece of work. */
const AROUND_HOURS = 2;

/** Time runs down the page: which hours are shown, and where each instant lies. */
export interface TimeScale {
  /** Indexes into the answer's hours, first and one past the last. */
  readonly from: number;
  readonly to: number;
  readonly startMs: number;
  readonly endMs: number;
  readonly topPx: number;
  readonly rowPx: number;
  readonly bottomPx: number;
  readonly y: (ms: number) => number;
  /** Cut to what is shown, for lines that start or end outside. */
  readonly within: (ms: number) => number;
}

interface Size {
  readonly topPx: number;
  readonly rowPx: number;
}

function span(answer: WorkAnswer): readonly [number, number] {
  const { items, sunriseMs, sunsetMs } = answer;
  const starts = items.map((item) => item.startMs);
  const ends = items.map((item) => item.endMs);
  if (starts.length > 0) {
    return [
      Math.min(...starts) - AROUND_HOURS * HOUR_MS,
      Math.max(...ends, answer.rainSafeMs ?? Number.NEGATIVE_INFINITY) + AROUND_HOURS * HOUR_MS,
    ];
  }
  return [sunriseMs ?? Number.NEGATIVE_INFINITY, sunsetMs ?? Number.POSITIVE_INFINITY];
}

/** Null where no hour of weather touches the day's work. */
export function timeScale(answer: WorkAnswer, { topPx, rowPx }: Size): TimeScale | null {
  const stamps = answer.hours.startMs;
  const [earliest, latest] = span(answer);
  const from = stamps.findIndex((ms) => ms + HOUR_MS > earliest);
  const to = stamps.findLastIndex((ms) => ms < latest) + 1;
  const startMs = stamps[from];
  const lastMs = stamps[to - 1];
  if (startMs === undefined || lastMs === undefined || to <= from) return null;
  const endMs = lastMs + HOUR_MS;
  const y = (ms: number) => topPx + ((ms - startMs) / HOUR_MS) * rowPx;
  return {
    from,
    to,
    startMs,
    endMs,
    topPx,
    rowPx,
    bottomPx: y(endMs),
    y,
    within: (ms) => Math.min(endMs, Math.max(startMs, ms)),
  };
}
