import type { Product } from '../products/index.ts';
import { amountWords, materialsFor, sealWords } from '../stages/index.ts';
import type { DayOption } from './day-option.ts';

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

/** Every product of the day but the night seal, which has its own kit, and how much of it; trims and bars. */
function materialsNeeded({ plan }: DayOption): string[] {
  const { products, job } = plan.prepared;
  const lines = materialsFor([plan.work], products, job.buildUp)
    .filter(({ product }) => product.id !== products.nightSeal.id)
    .map(({ product, net, unit, lossPct }) => {
      const waste = lossPct > 0 ? `, and ${lossPct} % over for waste` : '';
      return `${product.name}: ${amountWords(net, unit)}${waste}.`;
    });
  const lengthM = (start: string): number =>
    plan.work.activities
      .filter(({ id }) => id.startsWith(start))
      .reduce((sum, { quantity }) => sum + (quantity?.value ?? 0), 0);
  const fixings = [
    ['Termination bar with mastic and fixings', lengthM('bar-')],
    ['Edge trims, cut and deburred', lengthM('trim-')],
  ] as const;
  return [
    ...lines,
    ...fixings.flatMap(([what, m]) => (m > 0 ? [`${what}: ${m.toFixed(1)} m.`] : [])),
  ];
}

/** Enough to close up at any point of the day. */
function nightSealKit(lengthM: number, product: Product): string {
  const amount = sealWords(product, lengthM);
  return `Night-seal kit: ${lengthM.toFixed(1)} m of ${product.name}${amount === null ? '' : ` (${amount})`}, weights, sheeting.`;
}
