import { hotMagnusWaterHPa } from '../../physics/index.ts';
import type { RuleId } from '../../stages/index.ts';
import { MS_PER_HOUR } from '../../units/index.ts';
import { stepStartMs } from '../../weather/index.ts';
import { RULE_BIT } from '../masks.ts';
import { type Prepared, surfaceOf } from '../prepare.ts';
import { quantile } from '../quantile.ts';
import { brokenAt } from './never-met.ts';
import type { WorkHours } from './work-hours.ts';
import type { WorkKind } from './work-kinds.ts';

/** The moment at which a rule is missed by least. */
export interface BestMoment {
  readonly atMs: number;
  /** What it is then, what is asked, and how far it is from that; in the unit of the rule. */
  readonly got: number;
  readonly need: number;
  readonly short: number;
  /** Which of a rule's limits it is. */
  readonly side: 'at least' | 'at most';
  readonly what:
    | 'air'
    | 'surface'
    | 'humidity'
    | 'dew margin'
    | 'wind'
    | 'gusts'
    | 'rain'
    | 'night';
}

type Miss = Omit<BestMoment, 'atMs'>;

const miss = (what: Miss['what'], side: Miss['side'], got: number, need: number): Miss => ({
  what,
  side,
  got,
  need,
  short: side === 'at least' ? need - got : got - need,
});

/** The further out of two; a limit that is not there is never missed. */
const worse = (...misses: readonly (Miss | null)[]): Miss | null =>
  misses.reduce(
    (most, next) => (next !== null && (most === null || next.short > most.short) ? next : most),
    null,
  );

/**
 * When a rule that is never met comes nearest to being met, over all hours and forecasts, and by how much
 * it is missed then.
 * @param whileMet  only hours in which none of these is broken count
 * @returns null where the rule has no number to miss (a wet deck), or no such hour
 */
export function bestMoment(
  prepared: Prepared,
  hours: WorkHours,
  kind: WorkKind,
  rule: RuleId,
  whileMet: readonly RuleId[] = [],
): BestMoment | null {
  const { grid } = prepared;
  const others = whileMet.reduce((bits, id) => bits | RULE_BIT[id], 0);
  const missAt = missOf(prepared, kind, rule);
  if (missAt === null) return null;
  let best: BestMoment | null = null;
  for (const m of hours.members) {
    for (const i of hours.litSteps) {
      const at = m * grid.steps + i;
      const broken = i < grid.knownSteps[m]! ? brokenAt(kind, at) : null;
      // A stray forecast that meets the rule says nothing of how the others miss it.
      if (broken === null || (broken & RULE_BIT[rule]) === 0 || (broken & others) !== 0) continue;
      const found = missAt(at, i);
      if (found === null || !(found.short >= 0) || (best !== null && found.short >= best.short))
        continue;
      best = { ...found, atMs: stepStartMs(grid, i) };
    }
  }
  return best;
}

function missOf(
  prepared: Prepared,
  { activity, product }: WorkKind,
  rule: RuleId,
): ((at: number, step: number) => Miss | null) | null {
  const { grid, limits } = prepared;
  const own = product?.limits ?? {};
  const range = (what: 'air' | 'surface', column: Float32Array, low?: number, high?: number) => {
    return (at: number): Miss | null =>
      worse(
        low === undefined ? null : miss(what, 'at least', column[at]!, low),
        high === undefined ? null : miss(what, 'at most', column[at]!, high),
      );
  };
  const wind = (meanMps: number, gustMps: number) => (at: number) =>
    worse(
      miss('wind', 'at most', grid.windMps[at]!, meanMps),
      miss('gusts', 'at most', grid.gustMps[at]!, gustMps),
    );
  switch (rule) {
    case 'air-temp':
      return range('air', grid.airTempC, own.airMinC?.value, own.airMaxC?.value);
    case 'surface-temp': {
      const { surfaceTempC } = prepared.surface(surfaceOf(activity));
      return range('surface', surfaceTempC, own.surfaceMinC?.value, own.surfaceMaxC?.value);
    }
    case 'dew-margin': {
      const { dewMarginK } = prepared.surface(surfaceOf(activity));
      const needK = Math.max(
        own.dewMarginMinK?.value ?? limits.dewMarginMinK,
        limits.dewMarginMinK,
      );
      return (at) => miss('dew margin', 'at least', dewMarginK[at]!, needK);
    }
    case 'humidity': {
      const most = own.relHumMaxPct?.value;
      if (most === undefined) return null;
      return (at) => miss('humidity', 'at most', relHumPct(prepared, at), most);
    }
    case 'sheet-wind':
      return wind(limits.sheetWindMps, limits.sheetGustMps);
    case 'roof-wind':
      return wind(limits.roofWindMps, limits.roofGustMps);
    case 'rain': {
      const perHour = MS_PER_HOUR / grid.stepMs;
      return (at) => miss('rain', 'at most', grid.rainMm[at]! * perHour, limits.rainMmPerHour);
    }
    case 'cold-night':
      return nightMiss(prepared, own.afterMinC?.value, own.hoursAfter?.value);
    case 'lightning':
    case 'heat':
    case 'chill':
    case 'deck-dry':
    case 'daylight':
      return null;
  }
}

/** Forecasts print air a hair below its dew point; that is 100 %. */
const relHumPct = ({ grid }: Prepared, at: number): number =>
  Math.min(
    100,
    (100 * hotMagnusWaterHPa(grid.dewPointC[at]!)) / hotMagnusWaterHPa(grid.airTempC[at]!),
  );

/**
 * The night after is judged by what the forecasts together say: the coldest air of the hours after that
 * all but the share the firm accepts stay above.
 */
function nightMiss(
  { grid, limits }: Prepared,
  leastC: number | undefined,
  hoursAfter: number | undefined,
): ((at: number, step: number) => Miss | null) | null {
  if (leastC === undefined || hoursAfter === undefined) return null;
  const window = Math.round((hoursAfter * MS_PER_HOUR) / grid.stepMs);
  const coldest = Array.from({ length: grid.memberCount }, (_, m) => coldestAfter(grid, m, window));
  const known = new Map<number, Miss | null>();
  return (_at, step) => {
    const before = known.get(step);
    if (before !== undefined) return before;
    const nights = coldest.map((column) => column[step]!).filter((value) => !Number.isNaN(value));
    const got = quantile(nights, limits.coldNightShare);
    const found = got === null ? null : miss('night', 'at least', got, leastC);
    known.set(step, found);
    return found;
  };
}

/** Lowest air from each step over a window, NaN where the forecast ends first. */
function coldestAfter(grid: Prepared['grid'], m: number, window: number): Float64Array {
  const known = grid.knownSteps[m]!;
  const out = new Float64Array(grid.steps).fill(Number.NaN);
  /** Steps whose air is lower than of all that come after, the lowest at the front. */
  const rising: number[] = [];
  const airC = (i: number): number => grid.airTempC[m * grid.steps + i]!;
  let front = 0;
  for (let i = 0; i < known; i += 1) {
    while (rising.length > front && airC(rising[rising.length - 1]!) >= airC(i)) rising.pop();
    rising.push(i);
    const from = i - window;
    if (from < 0) continue;
    while (rising[front]! < from) front += 1;
    out[from] = airC(rising[front]!);
  }
  return out;
}
