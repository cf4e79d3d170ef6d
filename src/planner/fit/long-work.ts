import type { Product } from '../../products/index.ts';
import { type BuildUpIssue, buildUpIssues, type TooLong } from '../../stages/index.ts';
import { askedIssues, baysOfJob, jobIssues } from '../bays.ts';
import type { ProductSet } from '../prepare.ts';
import type { Job } from '../types.ts';
import {
  type JobChange,
  type JobLaid,
  mostLonger,
  withLongerDay,
  withMorePeople,
  withOtherAdhesive,
  withoutSettings,
  withUsualRates,
} from './job-changes.ts';

/** Offered at most: the nearest, and others beside it. */
const MOST_OFFERED = 3;
/** People added at most where a longer day is tried beside them. */
const MOST_PEOPLE_BESIDE = 6;
/** Bays of this size are the smallest there are: a job that fits at all fits with them [m2]. */
const SMALLEST_BAY_M2 = 4;
/** Days are lengthened by multiples of this [min]. */
const ROUND_MIN = 5;

/**
 * Why this job cannot be laid as written, as `jobIssues` has it; and where its work is too long for any
 * day, the nearest change that makes it fit, found by trying.
 * @param shelf  every product there is
 * @returns empty = it can be laid
 */
export function whyNotLaid(
  job: Job,
  products: ProductSet,
  shelf: readonly Product[],
): readonly BuildUpIssue[] {
  const issues = jobIssues(job, products);
  const [only] = issues;
  if (only === undefined || issues.length > 1 || askedIssues(job).length > 0) return issues;
  if (!shortOfTime(job, products, only)) return issues;
  const changes = changesThatFit({ job, products }, shelf);
  return [{ ...only, message: `${only.message} ${changeWords(job, changes)}` }];
}

/** Either the smallest bay is too long, or the film goes off before the smallest section is closed. */
function shortOfTime(job: Job, products: ProductSet, issue: BuildUpIssue): boolean {
  if (tooLongOf({ job, products }) !== null) return true;
  // All else that is said of the field's product is a matter of the build-up.
  return (
    issue.path === 'buildUp.products.field' && buildUpIssues(job.buildUp, products).length === 0
  );
}

function tooLongOf({ job, products }: JobLaid): TooLong | null {
  const bays = baysOfJob(job, products);
  return bays.ok ? null : (bays.tooLong ?? null);
}

/**
 * Changes that were tried and make the job fit, the nearest first and one of each kind; more than one
 * at once only where no single one does. Empty = nothing tried does.
 */
export function changesThatFit(laid: JobLaid, shelf: readonly Product[]): JobChange[] {
  const one = singles(laid, shelf);
  const found = one.length > 0 ? one : twoAtOnce(laid, shelf);
  return found.sort((a, b) => a.size - b.size).slice(0, MOST_OFFERED);
}

function singles(laid: JobLaid, shelf: readonly Product[]): JobChange[] {
  return [
    ...withoutSettings(laid).filter(fitsWhole).slice(0, 1),
    ...longEnough(laid),
    ...fewestMore(laid),
    ...withOtherAdhesive(laid, shelf).filter(fits).filter(fitsWhole).slice(0, 1),
    ...withUsualRates(laid).filter(fits).filter(fitsWhole).slice(0, 1),
  ];
}

/** The longest day there is, and with it one more of the others. */
function twoAtOnce(laid: JobLaid, shelf: readonly Product[]): JobChange[] {
  const both = (first: JobChange, second: JobChange): JobChange => ({
    ...second,
    words: `${first.words}, and ${second.words}`,
    size: first.size + second.size,
  });
  const adhesives = withOtherAdhesive(laid, shelf);
  const byPeople = withMorePeople(laid)
    .slice(0, MOST_PEOPLE_BESIDE)
    .flatMap((more) => longEnough(more).map((day) => both(more, day)));
  const rates = withUsualRates(laid).flatMap((rate) => [
    ...longEnough(rate).map((day) => both(rate, day)),
    ...fewestMore(rate).map((more) => both(rate, more)),
  ]);
  const byAdhesive = adhesives.flatMap((other) => [
    ...longEnough(other).map((day) => both(other, day)),
    ...fewestMore(other).map((more) => both(other, more)),
  ]);
  return [byPeople, byAdhesive, rates].flatMap((kind) =>
    kind.sort((a, b) => a.size - b.size).slice(0, 1),
  );
}

/** The day as much longer as it has to be, where a day has room for that. */
function longEnough(laid: JobLaid): JobChange[] {
  const short = tooLongOf({ ...laid, job: { ...laid.job, bayAreaM2: SMALLEST_BAY_M2 } });
  if (short === null) return [];
  const dayMin = (short.needMin / short.mostMin) * short.dayMin;
  const most = mostLonger(laid.job);
  for (
    let more = Math.ceil((dayMin - short.dayMin) / ROUND_MIN - 1e-9) * ROUND_MIN;
    more <= most;
    more += ROUND_MIN
  ) {
    const change = withLongerDay(laid, more);
    if (change === null) return [];
    if (fits(change)) return fitsWhole(change) ? [change] : [];
  }
  return [];
}

/** Quick: one look at the smallest bays. */
const fits = ({ job, products }: JobLaid): boolean =>
  jobIssues({ ...job, bayAreaM2: SMALLEST_BAY_M2 }, products).length === 0;

/** The job as it would be written. */
const fitsWhole = ({ job, products }: JobLaid): boolean => jobIssues(job, products).length === 0;

/** As few more people as do; where not even the most do, those between are not tried. */
function fewestMore(laid: JobLaid): JobChange[] {
  const changes = withMorePeople(laid);
  const most = changes.at(-1);
  if (most === undefined || !fits(most)) return [];
  const first = changes.find(fits);
  return first !== undefined && fitsWhole(first) ? [first] : [];
}

function changeWords(job: Job, changes: readonly JobChange[]): string {
  const [nearest, ...others] = changes;
  if (nearest === undefined) {
    return `Nothing tried makes it fit: no day of up to 13 hours, no crew up to 30 people, no other adhesive${Object.keys(job.rates).length > 0 ? ', not the usual output' : ''}. Let other hands do part of it on other days, or split the roof.`;
  }
  const also = others.map(({ words }) => ` Or with ${words}.`).join('');
  return `Nearest change that makes it fit: ${nearest.words}.${also}`;
}
