import { asOnSheet } from '../../products/index.ts';
import { roofLie } from '../../roof/index.ts';
import { baysFor, DAY_SHARE } from '../../stages/index.ts';
import { MS_PER_MINUTE } from '../../units/index.ts';
import { baysOfJob, known, workBasis } from '../bays.ts';
import { closingWindow } from '../closing-window.ts';
import type { Prepared } from '../prepare.ts';
import type { Shift } from '../shift.ts';

/** Longest working day that `baysFor` takes [min]: asked for a bay's minutes, whatever day they are laid in. */
const LONGEST_DAY_MIN = 960;

/** Bays of one size laid by a gang of so many, and what the longest of them takes in fair weather. */
export interface Split {
  readonly prepared: Prepared;
  readonly bays: number;
  readonly bayAreaM2: number;
  readonly rainSafeMin: number;
  readonly finishMin: number;
}

/** The ways a job can be split, worked out when first asked for and kept for all its days. */
export class Splits {
  /** The job's own: the fewest laying days its crew can do it in. */
  readonly own: Split;
  readonly #prepared: Prepared;
  readonly #known = new Map<string, Split | null>();

  constructor(prepared: Prepared) {
    this.#prepared = prepared;
    const { days, ...sizes } = known(baysOfJob(prepared.job, prepared.products));
    this.own = { prepared, bays: days, ...sizes };
    this.#known.set(`${prepared.job.crew.people}|${this.#daysAsked(sizes.bayAreaM2)}`, this.own);
  }

  /**
   * The roof in a given number of laying days more than the job's own, by a gang of `people`; null where
   * no such bays can be laid, or once bays are laid and the split stays as it was begun.
   */
  by(people: number, extraDays: number): Split | null {
    const { job } = this.#prepared;
    if (job.baysDone > 0) return people === job.crew.people && extraDays === 0 ? this.own : null;
    const days = this.#daysAsked(this.own.bayAreaM2) + extraDays;
    const key = `${people}|${days}`;
    if (!this.#known.has(key)) this.#known.set(key, this.#made(people, days));
    return this.#known.get(key)!;
  }

  #made(people: number, days: number): Split | null {
    const { job, products } = this.#prepared;
    const bayAreaM2 = roofLie(job.roof).areaM2 / days;
    const answer = baysFor({
      ...workBasis({ ...job, crew: { ...job.crew, people } }, products),
      mostBayM2: bayAreaM2,
      usableMin: closingWindow(asOnSheet(products.field), 1),
      workMinutesPerDay: LONGEST_DAY_MIN,
      dayShare: 1,
    });
    if (!answer.ok || answer.bayAreaM2 !== bayAreaM2) return null;
    const prepared = this.#prepared.variant({ people, bayAreaM2 });
    const asLaid = baysOfJob(prepared.job, products);
    if (!asLaid.ok || asLaid.bayAreaM2 !== bayAreaM2) return null;
    const { rainSafeMin, finishMin } = answer;
    return { prepared, bays: answer.days, bayAreaM2, rainSafeMin, finishMin };
  }

  #daysAsked(bayAreaM2: number): number {
    return Math.round(roofLie(this.#prepared.job.roof).areaM2 / bayAreaM2);
  }
}

/**
 * Could the longest bay of a split be laid within a crew's hours in fair weather, as the job's own split
 * asks? What then knocking off sooner, or the dark, leaves time for is for the runs to say.
 */
export function fitsShift({ rainSafeMin, finishMin }: Split, shift: Shift): boolean {
  const restMs = shift.breaks.reduce((sum, { lengthMs }) => sum + lengthMs, 0);
  const workMin = (shift.endMs - shift.startMs - restMs) / MS_PER_MINUTE;
  return rainSafeMin <= DAY_SHARE * workMin && finishMin <= workMin;
}
