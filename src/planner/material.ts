import type { Product } from '../products/index.ts';
import type { Activity } from '../stages/index.ts';
import type { Prepared } from './prepare.ts';

/** What one task uses up. */
export interface Material {
  readonly product: Product;
  /** In the product's own measure; null where the task uses none of it or its coverage does not say. */
  readonly amount: number | null;
  /** 'L', 'kg', 'm', 'tube', 'roll', or 'piece'. */
  readonly unit: string;
}

/** The product a task works with and how much of it goes down, at the product's coverage. */
export function materialOf(activity: Activity, prepared: Prepared): Material | null {
  const product = productOf(activity, prepared);
  if (product === null) return null;
  const { unit } = product.coverage;
  const [per, pack] = unit === 'each' ? ['no.', 'piece'] : (unit.split('/') as [string, string]);
  // Bringing coated faces together uses no more adhesive; tape and patches go on at that moment.
  const usesNone = activity.closes !== undefined && product.closing !== 'none';
  const covers = activity.coats?.covers ?? activity.quantity;
  const amount =
    usesNone || covers === null || covers.unit !== per
      ? null
      : covers.value / product.coverage.value;
  return { product, amount, unit: pack };
}

/** 'x L', 'x kg', 'x m'; whole tubes, rolls and pieces. */
export function amountWords(amount: number, unit: string): string {
  if (isMeasured(unit)) {
    return amount < 0.05 ? `under 0.1 ${unit}` : `${amount.toFixed(1)} ${unit}`;
  }
  const whole = Math.ceil(amount - 1e-9);
  return `${whole} ${unit}${whole === 1 ? '' : 's'}`;
}

/** Cut, poured or spread, so that some of it is wasted; the rest is counted. */
export const isMeasured = (unit: string): boolean => ['L', 'kg', 'm'].includes(unit);

function productOf(activity: Activity, { productById, products }: Prepared): Product | null {
  if (activity.coats !== undefined) return productById.get(activity.coats.productId) ?? null;
  switch (activity.productJob) {
    case null:
      return null;
    case 'lap-tape':
      return products.lapTape;
    case 'night-seal':
      return products.nightSeal;
    default:
      return products[activity.productJob];
  }
}
