import type { BuildUpProducts } from './context.ts';
import { type DayWorkAnswer, type DayWorkQuestion, planDayWork } from './day-work.ts';
import { type LabourRate, type LabourRates, labourRates, type RateId, workerMin } from './rates.ts';
import { CAUTION } from './texts.ts';
import { TRADE_STAGES, type TradeStage, tradeStageOf } from './trade-stages.ts';
import type { Activity, DayWork, RuleId } from './types.ts';

/** One of the trade's stages over the whole job: what, how much, by whom, and how it may be left. */
export interface StageRow {
  /** 1..19, see docs/stages.md; the night seal between bays goes with the stage it follows, 13. */
  readonly number: number;
  readonly title: string;
  readonly applies: boolean;
  /** Why it is not part of this job; '' where it is. */
  readonly whyNot: string;
  /** Laying days on which it happens, 1 = the first; [] for work outside laying days. */
  readonly days: readonly number[];
  readonly quantity: Activity['quantity'];
  readonly workerMin: number;
  /** With the crew given, one task after the other [min]. */
  readonly crewMin: number;
  readonly people: { readonly least: number; readonly most: number };
  /** The figures it is reckoned from. */
  readonly from: readonly { readonly rate: RateId; readonly figures: LabourRate }[];
  /** Waiting between coating and closing at the sheet's typical figures [min]. */
  readonly lag: {
    readonly product: string;
    readonly leastMin: number;
    readonly mostMin: number | null;
  } | null;
  readonly rules: readonly RuleId[];
  readonly neverInterrupt: boolean;
  readonly noReturn: boolean;
  /** Must be done before rain, once the roof is open. */
  readonly beforeRain: boolean;
  readonly safeStopAfter: boolean;
  readonly holdPoints: readonly string[];
  readonly cautions: readonly string[];
}

export type StageTable =
  | {
      readonly ok: true;
      readonly rows: readonly StageRow[];
      readonly days: readonly DayWork[];
      readonly warnings: readonly string[];
    }
  | Extract<DayWorkAnswer, { ok: false }>;

/**
 * All stages of the trade over all laying days of a job, those that do not apply with the reason.
 * @param q as `planDayWork`, without a day
 * @throws RangeError as `planDayWork`
 */
export function stageTable(q: Omit<DayWorkQuestion, 'bayIndex'>): StageTable {
  const days: DayWork[] = [];
  const warnings = new Set<string>();
  for (let bayIndex = 0, of = 1; bayIndex < of; bayIndex += 1) {
    const answer = planDayWork({ ...q, bayIndex });
    if (!answer.ok) return answer;
    days.push(answer.work);
    for (const warning of answer.warnings) warnings.add(warning);
    of = answer.work.bay.of;
  }
  const rates = q.rates ?? labourRates;
  const rows = TRADE_STAGES.map((stage) => rowOf(stage, days, rates, q.products, q.crewPeople));
  return { ok: true, rows, days, warnings: [...warnings] };
}

function rowOf(
  stage: TradeStage,
  days: readonly DayWork[],
  rates: LabourRates,
  products: BuildUpProducts,
  people: number,
): StageRow {
  const inDays = days.map((day) =>
    day.activities.filter((activity) => tradeStageOf(activity) === stage.number),
  );
  const activities = inDays.flat();
  const outside = stage.outside?.(days) ?? null;
  const outsideMin = outside === null ? 0 : workerMin(rates[outside.rate], outside.quantity.value);
  const applies = activities.length > 0 || outside !== null;
  const total = activities.reduce((sum, a) => sum + a.workerMin, outsideMin);
  const crewMin = activities.reduce(
    (sum, a) => sum + a.workerMin / Math.max(1, Math.min(people, a.maxPeople)),
    outside === null ? 0 : outsideMin / Math.min(people, rates[outside.rate].crew),
  );
  const flagged = (flag: 'oneGo' | 'noReturn' | 'forRainSafe'): boolean =>
    activities.some((a) => a[flag]);
  const stops = new Set(
    days.flatMap((day) => day.stops.filter((s) => s.allowed).map((s) => s.after)),
  );
  return {
    number: stage.number,
    title: stage.title,
    applies,
    whyNot: applies ? '' : stage.whyNot,
    days: inDays.flatMap((list, i) => (list.length > 0 ? [i + 1] : [])),
    quantity: outside?.quantity ?? quantityOf(activities),
    workerMin: total,
    crewMin,
    people: {
      least: Math.max(1, ...activities.map((a) => a.minPeople)),
      most: Math.max(1, ...activities.map((a) => Math.min(people, a.maxPeople))),
    },
    from: applies ? stage.rates(products).map((rate) => ({ rate, figures: rates[rate] })) : [],
    lag: lagOf(activities, products),
    rules: [...new Set(activities.flatMap((a) => a.rules))],
    neverInterrupt: flagged('oneGo'),
    noReturn: flagged('noReturn'),
    beforeRain: flagged('forRainSafe'),
    safeStopAfter: stage.alwaysStop || activities.some((a) => stops.has(a.id)),
    holdPoints: [...new Set([...activities.flatMap((a) => a.holdPoints), ...stage.holdPoints])],
    cautions: [
      ...new Set([
        ...activities.flatMap((a) => a.cautions),
        ...(outside === null ? [] : [CAUTION.edges]),
      ]),
    ],
  };
}

/** What is prepared, coated and closed is one quantity: where something is closed, the closing counts. */
function quantityOf(activities: readonly Activity[]): Activity['quantity'] {
  const measured = activities.filter(({ quantity }) => quantity !== null);
  const closed = measured.filter(({ closes }) => closes !== undefined);
  const list = closed.length > 0 ? closed : measured;
  const unit = list[0]?.quantity?.unit;
  if (unit === undefined) return null;
  const value = list.reduce(
    (sum, a) => sum + (a.quantity!.unit === unit ? a.quantity!.value : 0),
    0,
  );
  return { value, unit };
}

function lagOf(activities: readonly Activity[], products: BuildUpProducts): StageRow['lag'] {
  const id = activities.find(({ coats }) => coats !== undefined)?.coats?.productId;
  const product = Object.values(products).find((candidate) => candidate.id === id);
  if (product === undefined || product.closing === 'none') return null;
  return {
    product: product.name,
    leastMin:
      product.closing === 'touch-dry'
        ? (product.touchDry?.typicalMin ?? 0)
        : (product.closeFrom?.typicalMin ?? 0),
    mostMin: product.openUntil?.typicalMin ?? null,
  };
}
