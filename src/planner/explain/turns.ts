import type { Product } from '../../products/index.ts';
import { clockText } from '../../time/index.ts';
import type { AdjustedChance } from '../chance.ts';
import type { DayOption, Verdict } from '../day-option.ts';
import type { JobChange } from '../prepare.ts';
import { type Judged, judgeOthers } from './judge-others.ts';
import { asItStands, laterStart } from './later-start.ts';
import { type Other, otherWays } from './other-ways.ts';

export type TurnKind = 'later start' | 'smaller bay' | 'other adhesive' | 'one more person';

/** A change that would turn a day. */
export interface Turn {
  readonly kind: TurnKind;
  readonly words: string;
  readonly startMs: number | null;
  readonly chance: AdjustedChance;
  readonly verdict: Verdict;
  readonly expectedCost: number;
  /** Less than the day as found is expected to cost; negative where it costs more. */
  readonly gainCost: number;
  /** What to ask `Prepared.variant` for; empty for a later start. */
  readonly change: JobChange;
}

/** A change is told where it lifts the chance by so much, or the verdict. */
const LEAST_GAIN = 0.1;

const RANK: Readonly<Record<Verdict, number>> = { unknown: 0, no: 0, doubtful: 1, go: 2 };

/**
 * What would turn a day: a later start, a smaller bay, another adhesive off the shelf or one more person,
 * the best of each kind, each planned anew and run in every forecast. What one more person is paid is not
 * in the costs. Picking the best of several flatters it; that is taken off, as for starts.
 * @param spares  products at hand; those the build-up refuses or that do another job are passed over
 * @returns best first; none where the day cannot be judged, or can hardly be better
 */
export function turnsOf(option: DayOption, spares: readonly Product[] = []): readonly Turn[] {
  const { adjusted } = option.chance;
  if (option.verdict === 'unknown') return [];
  if (option.verdict === 'go' && (adjusted === null || adjusted > 1 - LEAST_GAIN)) return [];
  const now = asItStands(option);
  const later = laterStart(option);
  const found = later === null ? [] : [turnOf(option, now, later)];
  const others = otherWays(option, spares);
  for (const kind of ['smaller bay', 'other adhesive', 'one more person'] as const) {
    const judged = judgeOthers(
      option,
      others.filter((other) => other.kind === kind),
    );
    if (judged !== null) found.push(turnOf(option, now, judged));
  }
  return found.filter((turn) => isBetter(turn, now)).sort(bestFirst);
}

function turnOf(option: DayOption, now: DayOption, { other, startMs, found }: Judged): Turn {
  const { chance, verdict, expectedCost } = found;
  return {
    kind: other.kind,
    words: `${changeWords(option, other, startMs)}: ${chanceWords(now.chance, chance)}.`,
    startMs,
    chance,
    verdict,
    expectedCost,
    gainCost: option.expectedCost - expectedCost,
    change: other.change,
  };
}

function isBetter({ chance, verdict }: Turn, now: DayOption): boolean {
  const lift = RANK[verdict] - RANK[now.verdict];
  if (lift < 0) return false;
  const was = now.chance;
  if (chance.adjusted === null || was.adjusted === null) return lift > 0;
  // Each is taken down for its own search: the bare counts must bear the gain out, too.
  const gain = Math.min(
    chance.adjusted - was.adjusted,
    chance.count / chance.of - was.count / was.of,
  );
  return gain >= LEAST_GAIN || (lift > 0 && gain > 0);
}

function bestFirst(a: Turn, b: Turn): number {
  return (
    RANK[b.verdict] - RANK[a.verdict] ||
    (b.chance.adjusted ?? 0) - (a.chance.adjusted ?? 0) ||
    a.expectedCost - b.expectedCost
  );
}

function changeWords({ plan, startMs: wasMs }: DayOption, other: Other, startMs: number): string {
  const zone = plan.prepared.job.site.timeZone;
  const at = clockText(startMs, zone);
  if (other.kind === 'later start') return `Start at ${at} rather than ${clockText(wasMs!, zone)}`;
  return wasMs === startMs ? other.words : `${other.words} and a start at ${at}`;
}

/** 'about 7 in 10 rather than 4' */
function chanceWords(was: AdjustedChance, now: AdjustedChance): string {
  if (now.adjusted === null || was.adjusted === null) return 'the one forecast there is finishes';
  if (was.tenths === now.tenths) return `${now.count} of ${now.of} rather than ${was.count}`;
  if (was.count === 0) return `${now.words} rather than none`;
  return `${now.words} rather than ${was.tenths === 0 ? 'under 1' : was.tenths}`;
}
