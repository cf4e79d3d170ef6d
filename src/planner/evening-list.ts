import type { Product } from '../products/index.ts';
import type { DayOption } from './day-option.ts';
import { amountWords, isMeasured, materialOf } from './material.ts';

/** What to have ready the evening before: quantities, warm tins, meters, the night-seal kit. */
export function eveningList(option: DayOption): string[] {
  const { plan } = option;
  const { products } = plan.prepared;
  const { nightSeal, bay } = plan.work;
  const list = materialsNeeded(option);
  list.push(
    'Stand adhesive and primer in the warm overnight: 15 to 27 °C when used. Water-borne adhesive must never freeze.',
    'Check batch and expiry of every tin and write them down.',
    'Pack surface thermometer, hygrometer, pin meter, white tissue, clear film.',
    nightSealKit(nightSeal.lengthM, products.nightSeal),
  );
  if (plan.prepared.job.buildUp.strip) {
    list.push(
      'How dry the deck is, is not known until it is opened: have boards for replacing wet ones.',
    );
  }
  if (bay.of > 1)
    list.push(
      `Bay ${bay.number} of ${bay.of}, ${bay.areaM2.toFixed(0)} m²: the rest stays closed.`,
    );
  return list;
}

/** Every product of the day but the night seal, which has its own kit, and how much of it. */
function materialsNeeded({ plan }: DayOption): string[] {
  const { prepared } = plan;
  const needed = new Map<string, { name: string; unit: string; amount: number }>();
  for (const { activity } of plan.steps) {
    const material = materialOf(activity, prepared);
    if (material === null || material.amount === null) continue;
    const { product, unit } = material;
    if (product.id === prepared.products.nightSeal.id) continue;
    const amount = (needed.get(product.id)?.amount ?? 0) + material.amount;
    needed.set(product.id, { name: product.name, unit, amount });
  }
  return [...needed.values()].map(({ name, unit, amount }) => {
    const waste = isMeasured(unit) ? ', and 10 % over for waste' : '';
    return `${name}: ${amountWords(amount, unit)}${waste}.`;
  });
}

/** Enough to close up at any point of the day. */
function nightSealKit(lengthM: number, { name, coverage }: Product): string {
  const [per, pack] = coverage.unit.split('/');
  const amount =
    per === 'm' && pack !== undefined && pack !== 'm'
      ? ` (${amountWords(lengthM / coverage.value, pack)})`
      : '';
  return `Night-seal kit: ${lengthM.toFixed(1)} m of ${name}${amount}, weights, sheeting.`;
}
