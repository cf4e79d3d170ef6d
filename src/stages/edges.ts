import { type EdgeSide, PERIMETER_STRIP_M, sideLengthM } from '../roof/index.ts';
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
import { CAUTION, HOLD, IF_RAIN } from './texts.ts';
import type { Activity } from './types.ts';

export const SIDE_NAMES: Readonly<Record<EdgeSide, string>> = {
  low: 'low edge',
  high: 'high edge',
  left: 'left edge',
  right: 'right edge',
};
const SIDES: readonly EdgeSide[] = ['high', 'left', 'right', 'low'];
/** Longest length coated at once, however long the window [m]; common practice. */
const LONGEST_EDGE_M = 20;
const LONGEST_UPSTAND_M = 10;

export interface EdgeWork {
  readonly activities: readonly Activity[];
  /** Ids that close each outer side. */
  readonly closedBy: ReadonlyMap<EdgeSide, readonly string[]>;
}

/** Contact-bonded strip along eaves and verges, and strip with upstand along abutments. */
export function perimeterWork(day: DayContext, halves: readonly LaidHalf[]): EdgeWork {
  const activities: Activity[] = [];
  const closedBy = new Map<EdgeSide, readonly string[]>();
  for (const side of SIDES) {
    const kind = day.part.edges[side];
    if (kind === 'next-bay' || kind === 'earlier-bay') continue;
    const upstand = kind === 'abutment';
    const minPerM = upstand ? upstandMinPerM(day) : workerMin(day.rates.perimeterStrip, 1);
    const people = edgePeople(day);
    const fitsM = (day.usable.perimeterMin * USABLE_SHARE * people) / minPerM;
    const mostM = Math.min(upstand ? LONGEST_UPSTAND_M : LONGEST_EDGE_M, Math.max(1, fitsM));
    const lengths = equalChunks(sideLengthM(day.part, side), mostM);
    const from = halves.filter((h) => h.touches.includes(side)).map((h) => h.closedBy);
    const ids: string[] = [];
    lengths.forEach((lengthM, i) => {
      const id = `${upstand ? 'upstand' : 'edge'}-${side}-${i + 1}`;
      const what = upstand ? `upstand at the ${SIDE_NAMES[side]}` : SIDE_NAMES[side];
      const name = `${ofMany(what, i, lengths.length)} (${round1(lengthM)} m)`;
      activities.push(...edgePair(day, { id, name, lengthM, minPerM, upstand, from }));
      ids.push(`${id}-close`);
    });
    closedBy.set(side, ids);
  }
  return { activities, closedBy };
}

/** Pairs along an edge; more would be in each other's way. Common practice. */
const edgePeople = (day: DayContext): number => Math.min(day.people, 4);

/** Upstand at its full height and the strip at its foot [worker-min/m]. */
export function upstandMinPerM(day: DayContext): number {
  const taller = Math.max(1, day.part.upstandMm / UPSTAND_RATE_HEIGHT_MM);
  return workerMin(day.rates.upstand, 1) * taller + workerMin(day.rates.perimeterStrip, 1);
}

/** A length coated on both faces and pressed in touch dry. */
export function edgePair(
  day: DayContext,
  s: {
    readonly id: string;
    readonly name: string;
    readonly lengthM: number;
    readonly minPerM: number;
    readonly upstand: boolean;
    readonly from: readonly string[];
  },
): Activity[] {
  const { perimeter } = day.products;
  const totalMin = s.lengthM * s.minPerM;
  const heightM = PERIMETER_STRIP_M + (s.upstand ? day.part.upstandMm / 1000 : 0);
  const coatShare = s.upstand ? TASK_SHARES.upstandCoat : TASK_SHARES.perimeterCoat;
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
        surfaces: s.upstand ? ['deck', 'folded-sheet', 'upstand'] : ['deck', 'folded-sheet'],
        covers: { value: s.lengthM * heightM, unit: 'm2' },
      },
      holdPoints: [
        s.upstand
          ? `Thin even film on strip and upstand, full height ${day.part.upstandMm} mm; none inside a lap.`
          : 'Thin even film on the 150 mm strip and the sheet; none inside a lap.',
      ],
    }),
    activity({
      ...common,
      id: `${s.id}-close`,
      title: s.upstand
        ? `Press into the angle, then up: ${s.name}`
        : `Press in and roll: ${s.name}`,
      workerMin: totalMin * (1 - coatShare),
      after: [`${s.id}-coat`],
      rules: workRules('rain', 'dew-margin'),
      closes: `${s.id}-coat`,
      holdPoints: s.upstand ? [HOLD.finger, HOLD.angle] : [HOLD.finger],
    }),
  ];
}

/** Termination bars, which the roof is not rain-safe without, and trims, which may wait. */
export function edgeFixings(day: DayContext, edges: EdgeWork): Activity[] {
  const list: Activity[] = [];
  for (const [side, closedBy] of edges.closedBy) {
    const kind = day.part.edges[side];
    const lengthM = sideLengthM(day.part, side);
    const quantity = { value: lengthM, unit: 'm' } as const;
    const maxPeople = Math.max(1, Math.min(day.people, Math.ceil(lengthM / 3)));
    if (kind === 'abutment') {
      list.push(
        activity({
          id: `bar-${side}`,
          stage: 'edge-fixings',
          title: `Fix the termination bar over mastic: ${SIDE_NAMES[side]} (${round1(lengthM)} m)`,
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
    const eaves = kind === 'eaves';
    list.push(
      activity({
        id: `trim-${side}`,
        stage: 'edge-fixings',
        title: `${eaves ? 'Fix the drip trim into the gutter' : 'Fix the verge trim'}: ${SIDE_NAMES[side]} (${round1(lengthM)} m)`,
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
