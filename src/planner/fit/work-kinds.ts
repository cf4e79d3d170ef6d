import type { Product } from '../../products/index.ts';
import { type Activity, type BuildUpJob, planDayWork } from '../../stages/index.ts';
import { known, nextBayBasis } from '../bays.ts';
import { closingWindow } from '../closing-window.ts';
import { bitsOf, RULE_BIT, type RuleMask, SAFETY_BITS } from '../masks.ts';
import { type Prepared, type ProductSet, productOfActivity } from '../prepare.ts';

export type Role = keyof ProductSet;

/** Work of the bay laid next that meets the same rules with the same product on the same surface. */
export interface WorkKind {
  readonly activity: Activity;
  readonly product: Product | null;
  readonly role: Role | null;
  readonly mask: RuleMask;
  readonly bits: number;
}

const ROLE_OF: Readonly<Record<BuildUpJob, Role>> = {
  field: 'field',
  perimeter: 'perimeter',
  primer: 'primer',
  'lap-tape': 'lapTape',
  patch: 'patch',
  sealant: 'sealant',
  'night-seal': 'nightSeal',
};

/** Every kind of work that the day's list cannot do without, in the order it comes in. */
export function workKinds(prepared: Prepared): WorkKind[] {
  const { job, products } = prepared;
  const { work } = known(
    planDayWork({ ...nextBayBasis(job, products), usableMin: closingWindow(products.field, 1) }),
  );
  const kinds = new Map<string, WorkKind>();
  const maskIds = new Map<RuleMask, number>();
  for (const activity of work.activities) {
    const mask = prepared.mask(activity);
    if (!maskIds.has(mask)) maskIds.set(mask, maskIds.size);
    const bits = startBits(activity);
    const id = productOfActivity(activity, products);
    const named = activity.productJob === null ? null : ROLE_OF[activity.productJob];
    const role = named !== null && products[named].id === id ? named : roleOf(products, id);
    const key = `${role}|${maskIds.get(mask)}|${bits}`;
    if (kinds.has(key)) continue;
    const product = prepared.productById.get(id) ?? null;
    kinds.set(key, { activity, product, role, mask, bits });
  }
  return [...kinds.values()];
}

/** What can keep a piece of work from being begun; a film that is down is closed in any dew. */
function startBits({ rules, closes }: Activity): number {
  const bits = bitsOf(rules);
  return closes === undefined ? bits : bits & SAFETY_BITS;
}

function roleOf(products: ProductSet, id: string): Role | null {
  const roles = Object.keys(products) as Role[];
  return roles.find((role) => products[role].id === id) ?? null;
}

/** Rules of a product, which another product might not have. */
export const PRODUCT_RULES = [
  'air-temp',
  'surface-temp',
  'humidity',
  'dew-margin',
  'cold-night',
] as const;
export const PRODUCT_BITS = PRODUCT_RULES.reduce((bits, id) => bits | RULE_BIT[id], 0);
