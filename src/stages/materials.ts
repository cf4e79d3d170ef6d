import type { Product } from '../products/index.ts';
import type { BuildUpProducts } from './context.ts';
import type { Activity, BuildUp, DayWork } from './types.ts';

/** What one task uses up. */
export interface Material {
  readonly product: Product;
  /** In the product's own measure; null where the task uses none of it or its coverage does not say. */
  readonly amount: number | null;
  /** 'L', 'kg', 'm', 'tube', 'roll', or 'piece'. */
  readonly unit: string;
}

/** The part of a build-up that decides what goes down and how far it goes. */
export type MaterialBuildUp = Pick<BuildUp, 'deck' | 'sheet'>;

/** The product a task works with and how much of it goes down, at the product's coverage. */
export function materialOf(
  activity: Activity,
  products: BuildUpProducts,
  buildUp: MaterialBuildUp,
): Material | null {
  const product = productOf(activity, products);
  if (product === null) return null;
  const { unit } = product.coverage;
  const [per, pack] = unit === 'each' ? ['no.', 'piece'] : (unit.split('/') as [string, string]);
  // Bringing coated faces together uses no more adhesive; tape and patches go on at that moment.
  const usesNone = activity.closes !== undefined && product.closing !== 'none';
  const covers = activity.coats?.covers ?? activity.quantity;
  const amount =
    usesNone || covers === null || covers.unit !== per
      ? null
      : covers.value / coverageOn(product, activity, buildUp);
  return { product, amount, unit: pack };
}

/**
 * How far it goes on what it is spread on; the thirstier of deck and fleece where the sheet lists both.
 * @returns in the product's own unit
 */
function coverageOn(product: Product, { coats }: Activity, buildUp: MaterialBuildUp): number {
  const { value, on = {} } = product.coverage;
  if (coats?.surfaces.includes('deck') !== true) return value;
  const deck = on[buildUp.deck as keyof typeof on]?.value ?? value;
  const sheet = buildUp.sheet === 'fleece' ? (on.fleece?.value ?? deck) : deck;
  return Math.min(deck, sheet);
}

/** 'x L', 'x kg', 'x m'; whole tubes, rolls and pieces. */
export function amountWords(amount: number, unit: string): string {
  if (isMeasured(unit)) {
    return amount < 0.05 ? `under 0.1 ${unit}` : `${amount.toFixed(1)} ${unit}`;
  }
  const whole = Math.ceil(amount - 1e-9);
  return `${whole} ${unit}${whole === 1 ? '' : 's'}`;
}

/** What a length of night seal takes, in words; null where the product is not sold by length. */
export function sealWords({ coverage }: Product, lengthM: number): string | null {
  const [per, pack] = coverage.unit.split('/');
  if (per !== 'm' || pack === undefined || pack === 'm') return null;
  return amountWords(lengthM / coverage.value, pack);
}

/** Cut, poured or spread, so that some of it is wasted; the rest is counted. */
export const isMeasured = (unit: string): boolean => ['L', 'kg', 'm'].includes(unit);

/** Loss in pouring, spreading and cutting; 5-10 % is common practice, the upper end taken [%]. */
export const LOSS_PCT = 10;

/** One line of the order for a whole job. */
export interface MaterialLine {
  readonly product: Product;
  /** Net, from the take-off. */
  readonly net: number;
  readonly unit: string;
  /** 0 for what is counted in pieces. */
  readonly lossPct: number;
  readonly withLoss: number;
  /** Usual size of a container and how many whole ones that makes. */
  readonly container: number;
  readonly containers: number;
}

/** Usual containers: tins of 5 L and 5 kg, tape in rolls of 30 m; tubes, rolls and pieces singly. From memory. */
const CONTAINERS: Readonly<Record<string, number>> = { L: 5, kg: 5, m: 30 };

/**
 * What a job needs over all its laying days, in the order it is first used, with losses and whole
 * containers. The membrane itself is on the cut list, not here.
 */
export function materialsFor(
  days: readonly DayWork[],
  products: BuildUpProducts,
  buildUp: MaterialBuildUp,
): readonly MaterialLine[] {
  const totals = new Map<string, { product: Product; net: number; unit: string }>();
  for (const activity of days.flatMap((day) => day.activities)) {
    const material = materialOf(activity, products, buildUp);
    if (material === null || material.amount === null) continue;
    const line = totals.get(material.product.id);
    if (line === undefined) {
      const { product, unit, amount } = material;
      totals.set(product.id, { product, net: amount, unit });
    } else line.net += material.amount;
  }
  return [...totals.values()].map(({ product, net, unit }) => {
    const lossPct = isMeasured(unit) ? LOSS_PCT : 0;
    const withLoss = net * (1 + lossPct / 100);
    const container = CONTAINERS[unit] ?? 1;
    const containers = Math.ceil(withLoss / container - 1e-9);
    return { product, net, unit, lossPct, withLoss, container, containers };
  });
}

function productOf(activity: Activity, products: BuildUpProducts): Product | null {
  if (activity.coats !== undefined) {
    const { productId } = activity.coats;
    return Object.values(products).find(({ id }) => id === productId) ?? null;
  }
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
