import type { ClockRange } from '../products/index.ts';
import type { DayPlan } from './day-plan.ts';
import type { FoundWork } from './day-run.ts';
import { expiresAt, jointClock } from './film-times.ts';

/** A film that lies open on the roof. */
export interface FilmNow {
  /** Index of its coating. */
  readonly n: number;
  readonly firstMs: number;
  readonly lastMs: number;
  /** When a finger found it touch dry; null = not said. */
  readonly feltDryMs: number | null;
  /** By the clock; null = closed wet, at once. */
  readonly touchDry: ClockRange | null;
  readonly usableUntil: ClockRange;
  /** 'gone-off' in at least half of the forecasts; 'ready' = may be brought together, as the finger finds it. */
  readonly state: 'drying' | 'ready' | 'gone-off';
  /** Latest start of its closing that ends before the quick end of its open time; null = no end is known. */
  readonly closeFromMs: number | null;
}

/** Films that lie open at a moment, the one that goes off first before the others. */
export function filmsNow(plan: DayPlan, found: FoundWork, atMs: number): FilmNow[] {
  const times = new Map(found.done.map((task) => [task.n, task]));
  const felt = new Map(found.touchDry.map((task) => [task.n, task.atMs]));
  const films = plan.steps.flatMap((step, n): FilmNow[] => {
    const coated = times.get(n) ?? inHand(found, n, atMs);
    const { film, closedBy, closingMs } = step;
    if (film === null || closedBy === null || coated === null) return [];
    if (times.has(closedBy) || Number.isNaN(coated.startMs)) return [];
    const { startMs: firstMs, doneMs: lastMs } = coated;
    const { touchDry, usableUntil } = jointClock(film, middleOf(plan, n, firstMs), firstMs, lastMs);
    const feltDryMs = felt.get(n) ?? null;
    const dryMs = feltDryMs ?? (touchDry === null ? lastMs : touchDry.midMs);
    const gone = usableUntil.midMs !== null && usableUntil.midMs <= atMs;
    const ready = dryMs !== null && dryMs <= atMs;
    const { earlyMs } = usableUntil;
    return [
      {
        n,
        firstMs,
        lastMs,
        feltDryMs,
        touchDry,
        usableUntil,
        state: gone ? 'gone-off' : ready ? 'ready' : 'drying',
        closeFromMs: earlyMs === null ? null : earlyMs - closingMs,
      },
    ];
  });
  return films.sort((a, b) => goesOff(a) - goesOff(b));
}

const goesOff = ({ usableUntil }: FilmNow): number => usableUntil.midMs ?? Number.POSITIVE_INFINITY;

/** Spread up to now: what lies there is already drying. */
function inHand({ inHand: work }: FoundWork, n: number, atMs: number) {
  return work?.n === n ? { startMs: work.startMs, doneMs: Math.max(work.startMs, atMs) } : null;
}

/** The forecast in whose weather the film goes off at the middle time. */
function middleOf({ prepared, steps }: DayPlan, n: number, coatedMs: number): number {
  const film = steps[n]!.film!;
  const order = Array.from({ length: prepared.grid.memberCount }, (_, m) => ({
    m,
    ms: expiresAt(film, m, coatedMs) ?? Number.MAX_VALUE,
  })).sort((a, b) => a.ms - b.ms);
  return order[Math.floor((order.length - 1) / 2)]!.m;
}
