import type { WorkAnswer, WorkItem } from '../../../../src/contract/index.ts';
import type { ClockPack, Coat } from '../../../../src/products/index.ts';
import { keep, kept } from './kept.ts';

/** A part of the day that is coated, as the order of work lists it. */
export interface CoatedPart extends Coat {
  readonly id: string;
  /** 'Sheet 1, first half, 1 of 2' */
  readonly name: string;
  readonly productId: string;
  readonly productName: string;
  readonly areaM2: number | null;
  /** By the list. */
  readonly startMs: number;
  readonly endMs: number;
}

/** What a task is about, without what is done to it: the words after its colon. */
export function partName(title: string): string {
  const at = title.indexOf(': ');
  const words = (at < 0 ? title : title.slice(at + 2)).replace(/ \([^)]*m²?\)$/, '');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export function coatedParts(items: readonly WorkItem[]): CoatedPart[] {
  return items.flatMap((item) => {
    const { coats, product, quantity, startMs, endMs } = item;
    if (coats === null) return [];
    return [
      {
        id: item.id,
        name: partName(item.title),
        productId: coats.productId,
        productName: product?.name ?? coats.productId,
        surfaces: coats.surfaces,
        areaM2: quantity?.unit === 'm2' ? quantity.value : null,
        startMs: Math.round(startMs),
        endMs: Math.round(endMs),
        spreadMs: Math.round(endMs - startMs),
      },
    ];
  });
}

const keyOf = (jobId: string, date: string): string => `layfair-parts-${jobId}-${date}`;

/**
 * The day's coated parts; those last seen where there is no order of work now, as late in the day, when
 * a new one no longer fits.
 */
export function partsOf(
  jobId: string,
  date: string,
  answer: WorkAnswer | null,
): readonly CoatedPart[] {
  if (answer === null) return kept<CoatedPart[]>(keyOf(jobId, date)) ?? [];
  const parts = coatedParts(answer.items);
  keep(keyOf(jobId, date), parts);
  return parts;
}

const UNLISTED = 'unlisted-';

/**
 * What the list does not hold, a part for each adhesive of the pack: repairs, and a day whose list is
 * not to be had. Its faces are then the usual ones of the product.
 * @param count  of films that are logged already, so that none is taken for one coated over
 */
export function unlistedParts(pack: ClockPack | null, count: number): CoatedPart[] {
  const adhesives = (pack?.products ?? []).filter(
    ({ closing, openEndsBy }) => closing !== 'none' && openEndsBy === 'drying',
  );
  return adhesives.map(({ id, name }) => ({
    id: `${UNLISTED}${count + 1}-${id}`,
    name: `Section not on the list, ${name}`,
    productId: id,
    productName: name,
    surfaces: [],
    areaM2: null,
    startMs: 0,
    endMs: 0,
    spreadMs: 0,
  }));
}

export const isUnlisted = (activityId: string): boolean => activityId.startsWith(UNLISTED);
