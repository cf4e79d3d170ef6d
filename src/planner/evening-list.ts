import type { DayOption } from './day-option.ts';

/** What to have ready the evening before: quantities, warm tins, meters, the night-seal kit. */
export function eveningList(option: DayOption): string[] {
  const { plan } = option;
  const { products } = plan.prepared;
  const { nightSeal, bay } = plan.work;
  const list = tinsNeeded(option);
  list.push(
    'Stand adhesive and primer in the warm overnight: 15 to 27 °C when used. Water-borne adhesive must never freeze.',
    'Check batch and expiry of every tin and write them down.',
    'Pack surface thermometer, hygrometer, pin meter, white tissue, clear film.',
    `Night-seal kit: ${nightSeal.lengthM.toFixed(1)} m of ${products.nightSeal.name}, weights, sheeting.`,
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

/** Litres per product that is coated, over the whole day. */
function tinsNeeded({ plan }: DayOption): string[] {
  const litres = new Map<string, number>();
  for (const { activity } of plan.steps) {
    if (activity.coats === undefined || activity.quantity === null) continue;
    const product = plan.prepared.productById.get(activity.coats.productId);
    if (product === undefined || product.coverage.unit !== `${activity.quantity.unit}/L`) continue;
    litres.set(
      product.name,
      (litres.get(product.name) ?? 0) + activity.quantity.value / product.coverage.value,
    );
  }
  return [...litres].map(
    ([name, amount]) => `${name}: ${amount.toFixed(1)} L, and 10 % over for waste.`,
  );
}
