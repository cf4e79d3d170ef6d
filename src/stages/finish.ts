import {
  activity,
  bondRules,
  type DayContext,
  type LaidHalf,
  productCautions,
  round1,
  workRules,
} from './context.ts';
import { PATCH_EDGE_M } from './details.ts';
import { hasBar } from './edges.ts';
import { workerMin } from './rates.ts';
import { CAUTION, HOLD, IF_RAIN } from './texts.ts';
import type { Activity } from './types.ts';

/** Night seal of the edge towards the next bay; none on the last bay. */
export function nightSealWork(
  day: DayContext,
  halves: readonly LaidHalf[],
  lapsClosed: readonly string[],
): Activity[] {
  const lengthM = day.bay.nightSealM;
  if (lengthM === 0) return [];
  const open = day.takeOff.edges.filter((edge) => edge.kind === 'next-bay').map(({ id }) => id);
  const laid = halves.filter((h) => h.touches.some((id) => open.includes(id)));
  return [
    activity({
      id: 'night-seal',
      stage: 'night-seal',
      title: `Night seal towards the next bay (${round1(lengthM)} m)`,
      workerMin: workerMin(day.rates.nightSeal, lengthM),
      maxPeople: Math.min(day.people, 4),
      after: [...new Set([...laid.map((h) => h.closedBy), ...lapsClosed])],
      rules: workRules(),
      oneGo: true,
      quantity: { value: lengthM, unit: 'm' },
      productJob: 'night-seal',
      holdPoints: [
        'Loose edge down on an unbroken line of mastic or tape, weighted; water from above runs over it.',
        `Board edges covered. ${HOLD.outlets}`,
        'Photo of the whole edge.',
      ],
      cautions: [CAUTION.slips, ...productCautions(day.products.nightSeal)],
      ifRain: IF_RAIN.nightSeal,
    }),
  ];
}

/** Sealant on cut edges, patches and bar tops: last, on a dry surface. */
export function sealantWork(day: DayContext, after: readonly string[]): Activity[] {
  const { takeOff } = day;
  const { sealant } = day.products;
  const patches =
    takeOff.corners.length +
    takeOff.pipes +
    takeOff.outlets +
    takeOff.tJoints +
    takeOff.kerbs.reduce((sum, kerb) => sum + kerb.corners, 0);
  const lapM = takeOff.laps.reduce((sum, lap) => sum + lap.lengthM, 0);
  const barM = takeOff.edges.filter(hasBar).reduce((sum, edge) => sum + edge.lengthM, 0);
  const lengthM = lapM + barM + patches * PATCH_EDGE_M;
  if (lengthM === 0) return [];
  return [
    activity({
      id: 'sealant',
      stage: 'sealant',
      title: `Seal lap edges, patches and bar tops (${round1(lengthM)} m)`,
      workerMin: workerMin(day.rates.sealant, lengthM),
      maxPeople: Math.min(day.people, 4),
      after,
      rules: bondRules(sealant, false),
      ...(sealant.rainAfter === null
        ? {}
        : { coats: { productId: sealant.id, surfaces: ['sheet'] as const } }),
      forRainSafe: false,
      quantity: { value: lengthM, unit: 'm' },
      productJob: 'sealant',
      holdPoints: [
        'Surface dry and clean; bead over the whole cut edge, dressed off within 5-10 min.',
      ],
      cautions: productCautions(sealant),
      ifRain: IF_RAIN.sealant,
    }),
  ];
}

/** Walk over, probe, photograph, write down. */
export function finalCheck(day: DayContext, after: readonly string[]): Activity {
  return activity({
    id: 'check',
    stage: 'check',
    title: 'Probe the laps, look over every edge and detail, photos and readings',
    workerMin: workerMin(day.rates.inspection, day.bay.areaM2),
    maxPeople: Math.min(day.people, 4),
    after,
    rules: workRules(),
    forRainSafe: false,
    quantity: { value: day.bay.areaM2, unit: 'm2' },
    holdPoints: [
      'No open lap, no fishmouth, no bridging, nothing loose at an edge.',
      HOLD.outlets,
      'Nothing loose left on the roof; batch numbers, times and photos written down.',
    ],
    cautions: [CAUTION.edges, CAUTION.slips],
    ifRain: IF_RAIN.check,
  });
}
