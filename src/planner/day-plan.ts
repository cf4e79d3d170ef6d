import { type DoseTable, type Product, waitsFor } from '../products/index.ts';
import { type Activity, type DayWork, estimateDay } from '../stages/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import { bitsOf, type RuleMask } from './masks.ts';
import type { Prepared } from './prepare.ts';
import type { Shift } from './shift.ts';

/** An activity made ready for the simulation: numbers and look-ups instead of names. */
export interface Step {
  readonly activity: Activity;
  readonly durationMs: number;
  /** Indices of activities that come first. */
  readonly after: readonly number[];
  readonly rest: { readonly after: number; readonly lengthMs: number } | null;
  readonly bits: number;
  readonly mask: RuleMask;
  /** For the task that opens the roof: the rules of the first film to follow; else null. */
  readonly opensFor: RuleMask | null;
  /** For a coating: its clocks, one per face. */
  readonly film: FilmClock | null;
  /** For a closing: index of the coating it closes. */
  readonly closes: number | null;
  /** For a coating: index of its closing, null where nothing closes it. */
  readonly closedBy: number | null;
  /** For a coating: how long its closing takes. */
  readonly closingMs: number;
  /** From the start of this to rain-safe where nothing hinders and films dry as on their sheets. */
  readonly toRainSafeMs: number;
}

export interface FilmClock {
  readonly product: Product;
  readonly doses: readonly DoseTable[];
  /** Reference minutes to touch dry or cream time (0 = closed at once) and to the end of open time. */
  readonly readyMin: number;
  readonly openMin: number;
}

/** One laying day ready to be run under any member from any start. */
export interface DayPlan {
  readonly prepared: Prepared;
  readonly work: DayWork;
  readonly shift: Shift;
  readonly steps: readonly Step[];
  readonly nightSealMs: number;
  /** Water reaching what is under the work does no harm there: it spoils work, not the building. */
  readonly underIsTight: boolean;
}

/** Crews work as one gang on one task at a time; smaller tasks do not use everybody. */
export function dayPlan(prepared: Prepared, work: DayWork, shift: Shift): DayPlan {
  const index = new Map(work.activities.map((activity, n) => [activity.id, n]));
  const indexOf = (id: string): number => {
    const found = index.get(id);
    if (found === undefined) throw new Error(`activity '${id}' is named but not in the day's work`);
    return found;
  };
  const people = prepared.job.crew.people;
  const durationMs = (workerMin: number, maxPeople: number): number =>
    (workerMin / Math.max(1, Math.min(people, maxPeople))) * MS_PER_MINUTE;

  const closingOf = new Map<number, { readonly n: number; readonly lengthMs: number }>();
  work.activities.forEach(({ closes, workerMin, maxPeople }, n) => {
    if (closes === undefined) return;
    closingOf.set(indexOf(closes), { n, lengthMs: durationMs(workerMin, maxPeople) });
  });
  const steps = work.activities.map(
    (activity, n): Step => ({
      activity,
      durationMs: durationMs(activity.workerMin, activity.maxPeople),
      after: activity.after.map(indexOf),
      rest:
        activity.restMin === undefined
          ? null
          : {
              after: indexOf(activity.restMin.after),
              lengthMs: activity.restMin.minutes * MS_PER_MINUTE,
            },
      bits: bitsOf(activity.rules),
      mask: prepared.mask(activity),
      opensFor: activity.opens ? prepared.mask(firstCoat(work)) : null,
      film: filmOf(prepared, activity),
      closes: activity.closes === undefined ? null : indexOf(activity.closes),
      closedBy: closingOf.get(n)?.n ?? null,
      closingMs: closingOf.get(n)?.lengthMs ?? 0,
      toRainSafeMs: 0,
    }),
  );
  const { under } = prepared.job.buildUp;
  const fair = estimateDay(work, people, prepared.products);
  return {
    prepared,
    work,
    shift,
    steps: steps.map((step) => ({
      ...step,
      toRainSafeMs:
        Math.max(0, fair.rainSafeMin - fair.startMin.get(step.activity.id)!) * MS_PER_MINUTE,
    })),
    nightSealMs: durationMs(work.nightSeal.workerMin, people),
    underIsTight: under === 'sound-covering' || under === 'sealed-vapour-layer',
  };
}

/** The first coating of the day: what a roof is opened for. */
function firstCoat(work: DayWork): Activity {
  const coat = work.activities.find(({ coats }) => coats !== undefined);
  if (coat === undefined) throw new Error('a laying day without a coating');
  return coat;
}

function filmOf(prepared: Prepared, activity: Activity): FilmClock | null {
  // A running front spreads the field adhesive and closes it within itself.
  const coats =
    activity.runningFront === undefined
      ? activity.coats
      : { productId: prepared.products.field.id, surfaces: ['deck'] as const };
  if (coats === undefined) return null;
  const product = prepared.productById.get(coats.productId);
  if (product === undefined) throw new Error(`${activity.id} coats with an unknown product`);
  if (product.openUntil === null) return null;
  return {
    product,
    doses: coats.surfaces.map((kind) => prepared.doses(product.id, kind)),
    readyMin: waitsFor(product)?.time.typicalMin ?? 0,
    openMin: product.openUntil.typicalMin,
  };
}
