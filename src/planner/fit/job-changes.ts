import type { Product } from '../../products/index.ts';
import { buildUpIssues, labourRates, type RateId } from '../../stages/index.ts';
import type { ProductSet } from '../prepare.ts';
import type { Crew, Job } from '../types.ts';

/** A job laid another way, to be tried. */
export interface JobChange {
  readonly job: Job;
  readonly products: ProductSet;
  /** As the end of 'it fits with ...'. */
  readonly words: string;
  /**
   * How far the change goes, to put changes of different kinds in order: minutes a day longer. One more
   * person counts as an hour, another adhesive as an hour and a half; usual output in place of the firm's
   * own comes last, since it only helps where the firm's own figure is wrong (judged).
   */
  readonly size: number;
}

const PERSON_SIZE = 60;
const ADHESIVE_SIZE = 90;
const OWN_RATE_SIZE = 120;

/** Nobody is asked to start earlier or end later than this (judged). */
const EARLIEST_MIN = 5 * 60;
const LATEST_MIN = 21 * 60;
/** From coming to leaving: eleven hours of rest a day are due (Directive 2003/88/EC, article 3). */
const LONGEST_DAY_MIN = 13 * 60;
/** The most a job may have. */
const MOST_PEOPLE = 30;

/** What the firm set on the sheets or the size of a bay, taken out again. */
export function withoutSettings({ job, products }: JobLaid): JobChange[] {
  const changes: JobChange[] = [];
  if (job.bayAreaM2 !== null) {
    changes.push({
      job: { ...job, bayAreaM2: null },
      products,
      words: `no bayAreaM2 (now ${job.bayAreaM2} m²)`,
      size: 0,
    });
  }
  const { choices, ...sizes } = job.layout;
  if (choices !== undefined) {
    const words = 'no sheets fixed in layout.choices';
    changes.push({ job: { ...job, layout: sizes }, products, words, size: 0 });
  }
  return changes;
}

export type JobLaid = Pick<JobChange, 'job' | 'products'>;

/** One more person, two more, and so on. */
export function withMorePeople({ job, products }: JobLaid): JobChange[] {
  const { people } = job.crew;
  return Array.from({ length: Math.max(0, MOST_PEOPLE - people) }, (_, n) => ({
    job: { ...job, crew: { ...job.crew, people: people + n + 1 } },
    products,
    words: `${n + 1} more ${n === 0 ? 'person' : 'people'}, ${people + n + 1} in all`,
    size: PERSON_SIZE * (n + 1),
  }));
}

/** A day so many minutes longer, at its end first; null where no day has room for it. */
export function withLongerDay({ job, products }: JobLaid, moreMin: number): JobChange | null {
  const startMin = minuteOf(job.crew.dayStart);
  const endMin = minuteOf(job.crew.dayEnd);
  const atEnd = Math.max(0, Math.min(moreMin, LATEST_MIN - endMin));
  const crew: Crew = {
    ...job.crew,
    dayStart: timeOf(startMin - (moreMin - atEnd)),
    dayEnd: timeOf(endMin + atEnd),
  };
  if (startMin - (moreMin - atEnd) < Math.min(EARLIEST_MIN, startMin)) return null;
  return {
    job: { ...job, crew },
    products,
    words: `a working day ${moreMin} min longer, ${crew.dayStart} to ${crew.dayEnd}`,
    size: moreMin,
  };
}

/** Most minutes that `withLongerDay` finds room for. */
export function mostLonger({ crew }: Job): number {
  const [startMin, endMin] = [minuteOf(crew.dayStart), minuteOf(crew.dayEnd)];
  const room = Math.max(0, startMin - EARLIEST_MIN) + Math.max(0, LATEST_MIN - endMin);
  return Math.max(0, Math.min(room, LONGEST_DAY_MIN - (endMin - startMin)));
}

/** Every other field adhesive on the shelf that the build-up takes, in the order of the shelf. */
export function withOtherAdhesive(
  { job, products }: JobLaid,
  shelf: readonly Product[],
): JobChange[] {
  return shelf.flatMap((field) => {
    if (field.id === products.field.id || !field.does.includes('field')) return [];
    const other = { ...products, field };
    const changed = {
      ...job,
      buildUp: { ...job.buildUp, products: { ...job.buildUp.products, field: field.id } },
    };
    if (buildUpIssues(changed.buildUp, other).length > 0) return [];
    return {
      job: changed,
      products: other,
      words: `${field.name} (${field.id}) on the field instead of ${products.field.name}`,
      size: ADHESIVE_SIZE,
    };
  });
}

/**
 * Usual output in place of the firm's own where the firm's own is the slower: one rate at a time, then
 * all of them.
 */
export function withUsualRates({ job, products }: JobLaid): JobChange[] {
  const slower = slowerRates(job);
  const without = (ids: readonly RateId[], words: string): JobChange => ({
    job: {
      ...job,
      rates: Object.fromEntries(
        Object.entries(job.rates).filter(([id]) => !ids.includes(id as RateId)),
      ),
    },
    products,
    words,
    size: OWN_RATE_SIZE * ids.length,
  });
  const changes = slower.map(({ id, own }) => {
    const { typical, unit } = labourRates[id];
    const usual = `${typical} ${unit === 'min each' ? 'min' : unit.replace('m2', 'm²')}`;
    return without(
      [id],
      `the usual ${usual} in place of your own ${own} for rates.${id}, should that be a slip`,
    );
  });
  if (slower.length < 2) return changes;
  const ids = slower.map(({ id }) => id);
  const words = `the usual output in place of your own for ${ids.map((id) => `rates.${id}`).join(', ')}, should those be slips`;
  return [...changes, without(ids, words)];
}

function slowerRates({ rates }: Job): { readonly id: RateId; readonly own: number }[] {
  return (Object.entries(rates) as [RateId, number | undefined][]).flatMap(([id, own]) => {
    if (own === undefined) return [];
    const { typical, unit } = labourRates[id];
    return (unit === 'min each' ? own > typical : own < typical) ? [{ id, own }] : [];
  });
}

const minuteOf = (time: string): number => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
const timeOf = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
