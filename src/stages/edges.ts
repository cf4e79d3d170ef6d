import { type BayEdge, PERIMETER_STRIP_M } from '../roof/index.ts';
import {
  activity,
  bondRules,
  type DayContext,
  equalChunks,
  type LaidHalf,
  ofMany,
  productCautions,
  round1,
  USABLE_SHARE,
  workRules,
} from './context.ts';
import { TASK_SHARES, UPSTAND_RATE_HEIGHT_MM, workerMin } from './rates.ts';
import { LONGEST_AT_ONCE_M } from './sections.ts';
import { CAUTION, HOLD, IF_RAIN } from './texts.ts';
import type { Activity } from './types.ts';

export interface EdgeWork {
  readonly activities: readonly Activity[];
  /** Ids that close each outer edge, by its id. */
  readonly closedBy: ReadonlyMap<string, readonly string[]>;
}

/** Contact-bonded strip along eaves and verges, and strip with upstand along abutments. */
export function perimeterWork(day: DayContext, halves: readonly LaidHalf[]): EdgeWork {
  const activities: Activity[] = [];
  const closedBy = new Map<string, readonly string[]>();
  for (const edge of day.takeOff.edges.filter(isOuter)) {
    const upstand = edge.upstandMm > 0;
    const minPerM = bondMinPerM(day, edge.upstandMm);
    const people = edgePeople(day);
    const fitsM = (day.usable.perimeterMin * USABLE_SHARE * people) / minPerM;
    const mostM = Math.min(
      upstand ? LONGEST_AT_ONCE_M.upstands : LONGEST_AT_ONCE_M.edges,
      Math.max(1, fitsM),
    );
    const lengths = equalChunks(edge.lengthM, mostM);
    const from = halves.filter((h) => h.touches.includes(edge.id)).map((h) => h.closedBy);
    const ids: string[] = [];
    lengths.forEach((lengthM, i) => {
      const id = `${upstand ? 'upstand' : 'edge'}-${edge.id}-${i + 1}`;
      const what = upstand ? `upstand at the ${edge.name}` : edge.name;
      const name = `${ofMany(what, i, lengths.length)} (${round1(lengthM)} m)`;
      activities.push(...edgePair(day, { id, name, lengthM, upstandMm: edge.upstandMm, from }));
      ids.push(`${id}-close`);
    });
    closedBy.set(edge.id, ids);
  }
  return { activities, closedBy };
}

/** Pairs along an edge; more would be in each other's way. Common practice. */
const edgePeople = (day: DayContext): number => Math.min(day.people, 4);

/** The strip, and with an upstand its full height as well [worker-min/m]. */
function bondMinPerM(day: DayContext, upstandMm: number): number {
  const strip = workerMin(day.rates.perimeterStrip, 1);
  if (upstandMm === 0) return strip;
  return strip + workerMin(day.rates.upstand, 1) * Math.max(1, upstandMm / UPSTAND_RATE_HEIGHT_MM);
}

/** Outer edges are bonded; those towards another bay are lapped. */
const isOuter = (edge: BayEdge): boolean => edge.kind !== 'next-bay' && edge.kind !== 'earlier-bay';

/** Where the sheet ends on a wall or a parapet, under a bar over mastic. */
export const hasBar = ({ kind }: BayEdge): boolean =>
  kind === 'abutment' || kind === 'parapet' || kind === 'boundary';

/** A length coated on both faces and pressed in touch dry. */
export function edgePair(
  day: DayContext,
  s: {
    readonly id: string;
    readonly name: string;
    readonly lengthM: number;
    /** 0 = a strip without an upstand. */
    readonly upstandMm: number;
    readonly from: readonly string[];
  },
): Activity[] {
  const { perimeter } = day.products;
  const upstand = s.upstandMm > 0;
  const totalMin = s.lengthM * bondMinPerM(day, s.upstandMm);
  const heightM = PERIMETER_STRIP_M + s.upstandMm / 1000;
  const coatShare = upstand ? TASK_SHARES.upstandCoat : TASK_SHARES.perimeterCoat;
  const common = {
    stage: 'perimeter',
    maxPeople: edgePeople(day),
    oneGo: true,
    noReturn: true,
    quantity: { value: s.lengthM, unit: 'm' },
    productJob: 'perimeter',
    cautions: [CAUTION.edges, ...productCautions(perimeter)],
    ifRain: IF_RAIN.perimeter,
  } as const;
  return [
    activity({
      ...common,
      id: `${s.id}-coat`,
      title: `Coat both faces: ${s.name}`,
      workerMin: totalMin * coatShare,
      after: [...new Set(s.from)],
      rules: bondRules(perimeter, true),
      coats: {
        productId: perimeter.id,
        surfaces: upstand ? ['deck', 'folded-sheet', 'upstand'] : ['deck', 'folded-sheet'],
        covers: { value: s.lengthM * heightM, unit: 'm2' },
      },
      holdPoints: [
        upstand
          ? `Thin even film on strip and upstand, full height ${s.upstandMm} mm; none inside a lap.`
          : 'Thin even film on the 150 mm strip and the sheet; none inside a lap.',
      ],
    }),
    activity({
      ...common,
      id: `${s.id}-close`,
      title: upstand ? `Press into the angle, then up: ${s.name}` : `Press in and roll: ${s.name}`,
      workerMin: totalMin * (1 - coatShare),
      after: [`${s.id}-coat`],
      rules: workRules('rain', 'dew-margin'),
      closes: `${s.id}-coat`,
      holdPoints: upstand ? [HOLD.finger, HOLD.angle] : [HOLD.finger],
    }),
  ];
}

/** Termination bars, which the roof is not rain-safe without, and trims, which may wait. */
export function edgeFixings(day: DayContext, edges: EdgeWork): Activity[] {
  const list: Activity[] = [];
  for (const edge of day.takeOff.edges.filter(isOuter)) {
    const { lengthM } = edge;
    const closedBy = edges.closedBy.get(edge.id) ?? [];
    const quantity = { value: lengthM, unit: 'm' } as const;
    const maxPeople = Math.max(1, Math.min(day.people, Math.ceil(lengthM / 3)));
    if (hasBar(edge)) {
      list.push(
        activity({
          id: `bar-${edge.id}`,
          stage: 'edge-fixings',
          title: `Fix the termination bar over mastic: ${edge.name} (${round1(lengthM)} m)`,
          workerMin: workerMin(day.rates.bar, lengthM),
          maxPeople,
          after: closedBy,
          rules: workRules('rain'),
          quantity,
          holdPoints: ['Mastic unbroken behind the bar; fixings at 200-300 mm.'],
          cautions: [CAUTION.sharp, CAUTION.dust, CAUTION.hotAir],
          ifRain: IF_RAIN.fixings,
        }),
      );
      continue;
    }
    const eaves = edge.kind === 'gutter';
    list.push(
      activity({
        id: `trim-${edge.id}`,
        stage: 'edge-fixings',
        title: `${eaves ? 'Fix the drip trim into the gutter' : 'Fix the verge trim'}: ${edge.name} (${round1(lengthM)} m)`,
        workerMin: workerMin(day.rates.trim, lengthM),
        maxPeople,
        after: closedBy,
        rules: workRules('rain'),
        // Bonded and dressed 100 mm over the edge, the sheet sheds water before the trim is on.
        forRainSafe: false,
        quantity,
        holdPoints: [
          eaves
            ? 'Trim 1-2 mm under the deck, drip well into the gutter, gutter clear.'
            : 'Foam under a kerb trim pressed to about a third of its height (70 %).',
        ],
        cautions: [CAUTION.edges, CAUTION.sharp],
        ifRain: IF_RAIN.trim,
      }),
    );
  }
  return list;
}
