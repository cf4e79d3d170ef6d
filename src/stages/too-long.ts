import type { BuildUpIssue } from './compatibility.ts';
import type { DayEstimate } from './estimate.ts';
import type { DayWork, StageKind } from './types.ts';

/** A day's work that no working day holds, and by how much it misses. */
export interface TooLong {
  /** What does not fit: getting the bay rain-safe, or its whole list. */
  readonly until: 'rain-safe' | 'the end of its list';
  /** What that takes in fair weather [min]. */
  readonly needMin: number;
  /** What the day has for it, and the whole of the crew's day after breaks [min]. */
  readonly mostMin: number;
  readonly dayMin: number;
  readonly bayAreaM2: number;
  /** The piece of work that takes most of it [min]. */
  readonly longest: LongestWork;
}

export interface LongestWork {
  readonly words: string;
  readonly minutes: number;
}

/** What a stage's work is called in a sentence. */
export const WORK_WORDS: Readonly<Record<StageKind, string>> = {
  'open-up': 'stripping the old covering',
  'dry-down': 'drying the deck down',
  'vapour-layer': 'the vapour layer',
  insulation: 'laying insulation',
  deck: 'laying boards',
  'set-out': 'setting up and setting out',
  relax: 'unrolling and squaring up',
  'fold-back': 'folding back',
  field: 'bonding the field',
  laps: 'the laps',
  perimeter: 'edges and upstands',
  details: 'corners, pipes, outlets and other details',
  'edge-fixings': 'bars and trims',
  sealant: 'the sealant',
  'night-seal': 'the night seal',
  check: 'the last check',
};

/** What of a day's work keeps this crew longest; waits for films are no work. */
export function longestWork(work: DayWork, people: number): LongestWork {
  const byStage = new Map<StageKind, number>();
  for (const { stage, workerMin, maxPeople } of work.activities) {
    const minutes = workerMin / Math.min(people, maxPeople);
    byStage.set(stage, (byStage.get(stage) ?? 0) + minutes);
  }
  const [stage, minutes] = [...byStage].reduce((most, next) => (next[1] > most[1] ? next : most));
  return { words: WORK_WORDS[stage], minutes };
}

/** The same from a day's list and its estimate; null where the day holds it. */
export function tooLongFor(args: {
  readonly work: DayWork;
  readonly people: number;
  readonly estimate: Pick<DayEstimate, 'rainSafeMin' | 'finishMin'>;
  readonly dayMin: number;
  /** Share of the day the way to rain-safe may fill. */
  readonly share: number;
}): TooLong | null {
  const { work, people, estimate, dayMin, share } = args;
  const late = estimate.rainSafeMin > share * dayMin;
  if (!late && estimate.finishMin <= dayMin) return null;
  return {
    until: late ? 'rain-safe' : 'the end of its list',
    needMin: late ? estimate.rainSafeMin : estimate.finishMin,
    mostMin: late ? share * dayMin : dayMin,
    dayMin,
    bayAreaM2: work.bay.areaM2,
    longest: longestWork(work, people),
  };
}

export function tooLongIssue(found: TooLong): BuildUpIssue {
  const { until, needMin, mostMin, dayMin, bayAreaM2, longest } = found;
  const over = Math.ceil(needMin - mostMin);
  const most =
    until === 'rain-safe'
      ? `more than the ${Math.floor(mostMin)} min that a ${dayMin}-minute day leaves for it`
      : `more than a ${dayMin}-minute day`;
  return {
    path: 'crew',
    message: `Even the smallest bay, ${bayAreaM2.toFixed(1)} m², takes ${Math.ceil(needMin)} min to ${until}, ${over} min ${most}. Longest is ${longest.words}, ${Math.round(longest.minutes)} min.`,
  };
}
