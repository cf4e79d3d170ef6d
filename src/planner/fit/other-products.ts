import type { Product } from '../../products/index.ts';
import { buildUpIssues } from '../../stages/index.ts';
import { jobIssues } from '../bays.ts';
import { RULE_BIT } from '../masks.ts';
import type { Prepared, ProductSet } from '../prepare.ts';
import { type DayLaid, firstDayLaid } from './day-laid.ts';
import { type NeverMet, neverMet } from './never-met.ts';
import { changeForTime } from './short-days.ts';
import type { WorkHours } from './work-hours.ts';
import { PRODUCT_BITS, type Role, workKinds } from './work-kinds.ts';

/** Other products that were run and with which the job gets laid. */
export interface OtherProducts {
  readonly changed: readonly { readonly role: Role; readonly product: Product }[];
  /** What else it takes, in words; null = nothing. */
  readonly also: string | null;
  readonly laid: DayLaid;
}

/** Combinations that are run through; more would take longer than they help. */
const MOST_RUN = 8;

/**
 * For each job of the build-up that its product's limits rule out, another product of the shelf that does
 * the same job, that the build-up takes and whose limits are met. Of several, what lets the job be laid
 * first and in most forecasts.
 * @returns null where none is found or the job is not laid with them either
 */
export function otherProducts(
  prepared: Prepared,
  hours: WorkHours,
  unmet: readonly NeverMet[],
  shelf: readonly Product[],
): OtherProducts | null {
  const roles = [...new Set(unmet.map(({ kind }) => kind.role))];
  if (!heldByProducts(unmet)) return null;
  const byRole = roles.map((role) =>
    role === null
      ? []
      : candidates(prepared, hours, role, shelf).map((product) => ({ role, product })),
  );
  const all = combinations(byRole).slice(0, MOST_RUN);
  let best: OtherProducts | null = null;
  for (const changed of all) {
    const variant = variantWith(prepared, changed);
    const laid = variant === null ? null : firstDayLaid(variant);
    if (laid !== null && (best === null || isBetter(laid, best.laid)))
      best = { changed, also: null, laid };
  }
  if (best !== null || all[0] === undefined) return best;
  // Its limits are met, and still no day holds the work: slow hands in the cold, say.
  const variant = variantWith(prepared, all[0]);
  const time = variant === null ? null : changeForTime(variant, 0, []);
  return time === null ? null : { changed: all[0], also: time.words, laid: time.laid };
}

/** All that is held is held by a limit that another product might not have. */
export const heldByProducts = (unmet: readonly NeverMet[]): boolean =>
  unmet.every(({ rules }) => rules.some((id) => (RULE_BIT[id] & PRODUCT_BITS) !== 0));

const isBetter = (laid: DayLaid, than: DayLaid): boolean =>
  laid.shift.startMs < than.shift.startMs ||
  (laid.shift.startMs === than.shift.startMs && laid.finished > than.finished);

function candidates(
  prepared: Prepared,
  hours: WorkHours,
  role: Role,
  shelf: readonly Product[],
): Product[] {
  const job = prepared.products[role].does;
  const now = prepared.products[role];
  return shelf.filter((product) => {
    if (product.id === now.id || !product.does.some((what) => job.includes(what))) return false;
    const variant = variantWith(prepared, [{ role, product }]);
    if (variant === null) return false;
    return workKinds(variant)
      .filter((kind) => kind.role === role)
      .every((kind) => neverMet(variant, hours, kind).length === 0);
  });
}

/** The same roof with other products; null where the build-up does not take them or no day holds it. */
export function variantWith(
  prepared: Prepared,
  changed: OtherProducts['changed'],
): Prepared | null {
  const exchanged = Object.fromEntries(changed.map(({ role, product }) => [role, product]));
  const products: ProductSet = { ...prepared.products, ...exchanged };
  const ids = Object.fromEntries(Object.entries(products).map(([role, { id }]) => [role, id]));
  const buildUp = { ...prepared.job.buildUp, products: ids as ProductIds };
  if (buildUpIssues(buildUp, products).length > 0) return null;
  if (jobIssues({ ...prepared.job, buildUp }, products).length > 0) return null;
  return prepared.variant({ products });
}

type ProductIds = Prepared['job']['buildUp']['products'];

/** One of each list; empty where a list is. */
function combinations<T>(lists: readonly (readonly T[])[]): T[][] {
  return lists.reduce<T[][]>(
    (all, list) => all.flatMap((begun) => list.map((next) => [...begun, next])),
    [[]],
  );
}
