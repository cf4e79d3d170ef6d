import type { BayKerb } from '../roof/index.ts';
import {
  activity,
  bondRules,
  type DayContext,
  productCautions,
  round1,
  workRules,
} from './context.ts';
import { type EdgeWork, edgePair } from './edges.ts';
import { TASK_SHARES, workerMin } from './rates.ts';
import { CAUTION, HOLD, IF_RAIN } from './texts.ts';
import type { Activity } from './types.ts';

/** T-joint patches one person makes after one priming; they are quick. */
const T_JOINTS_EACH = 2;

/** Around one 150 mm patch [m]: sealant, and primer as for as much lap (from memory). */
export const PATCH_EDGE_M = 4 * 0.15;

interface Detail {
  readonly name: string;
  readonly minutes: number;
  readonly check: string;
  readonly from: readonly string[];
}

const CORNER_CHECK =
  'Corner patch 150 mm wide out of 225 mm uncured flashing; warmed, stretched, no bridging.';
const OUTLET_CHECK =
  'Outlet: water-block mastic under the sheet, clamp tight, hole cut clean. Clear and running.';
const PIPE_CHECK = 'Pipe: collar stretched up the pipe, clip and mastic at the top.';
const T_JOINT_CHECK = 'Patch centred on the joint and rolled into the step.';

/**
 * Corners, pipes, outlets, rooflight kerbs and T-joints. They are done in rounds, a detail a person, so
 * that each is primed and patched by the same hands inside the primer's window.
 */
export function detailWork(
  day: DayContext,
  edges: EdgeWork,
  fieldClosed: readonly string[],
  lapsClosed: readonly string[],
): Activity[] {
  const { takeOff, rates } = day;
  const through = [
    ...numbered('outlet', takeOff.outlets).map(
      (name): Detail => ({
        name,
        minutes: workerMin(rates.outlet, 1),
        check: OUTLET_CHECK,
        from: fieldClosed,
      }),
    ),
    ...numbered('pipe', takeOff.pipes).map(
      (name): Detail => ({
        name,
        minutes: workerMin(rates.pipe, 1),
        check: PIPE_CHECK,
        from: fieldClosed,
      }),
    ),
  ];
  const corners = takeOff.corners.map(
    ({ name, edges: [a, b] }): Detail => ({
      name: `corner ${name}`,
      minutes: workerMin(rates.corner, 1),
      check: CORNER_CHECK,
      from: [...(edges.closedBy.get(a) ?? []), ...(edges.closedBy.get(b) ?? [])],
    }),
  );
  const tJoints = numbered('T-joint', takeOff.tJoints).map(
    (name): Detail => ({
      name,
      minutes: workerMin(rates.tJoint, 1),
      check: T_JOINT_CHECK,
      from: lapsClosed,
    }),
  );
  const list: Activity[] = [
    ...rounds(day, 't-joints', tJoints, fieldClosed, { each: T_JOINTS_EACH, upstand: false }),
    ...rounds(day, 'pipes-outlets', through, fieldClosed, { each: 1, upstand: false }),
    ...rounds(day, 'corners', corners, fieldClosed, { each: 1, upstand: true }),
  ];
  for (const [i, kerb] of takeOff.kerbs.entries()) {
    list.push(...kerbWork(day, `rooflight-${i + 1}`, kerb, fieldClosed));
  }
  return list;
}

function kerbWork(
  day: DayContext,
  id: string,
  { name, aroundM, upstandMm, corners: cornerCount }: BayKerb,
  fieldClosed: readonly string[],
): Activity[] {
  const corners = numbered('corner', cornerCount).map(
    (corner): Detail => ({
      name: `${name} kerb ${corner}`,
      minutes: workerMin(day.rates.corner, 1),
      check: CORNER_CHECK,
      from: [`${id}-kerb-close`],
    }),
  );
  return [
    ...edgePair(day, {
      id: `${id}-kerb`,
      name: `kerb of ${name} (${round1(aroundM)} m)`,
      lengthM: aroundM,
      upstandMm,
      from: fieldClosed,
    }),
    ...rounds(day, `${id}-corners`, corners, fieldClosed, { each: 1, upstand: true }),
  ];
}

function rounds(
  day: DayContext,
  id: string,
  details: readonly Detail[],
  ready: readonly string[],
  how: { readonly each: number; readonly upstand: boolean },
): Activity[] {
  const list: Activity[] = [];
  const size = day.people * how.each;
  for (let at = 0; at < details.length; at += size) {
    const round = details.slice(at, at + size);
    list.push(...patchRound(day, `${id}-${at / size + 1}`, round, ready, how));
  }
  return list;
}

function patchRound(
  day: DayContext,
  id: string,
  round: readonly Detail[],
  ready: readonly string[],
  how: { readonly each: number; readonly upstand: boolean },
): Activity[] {
  const { primer, patch } = day.products;
  const names = round.map((d) => d.name).join(', ');
  // The round lasts as long as its longest detail; whoever is done first clears up.
  const totalMin = Math.max(...round.map((d) => d.minutes)) * round.length;
  const common = {
    stage: 'details',
    maxPeople: Math.ceil(round.length / how.each),
    oneGo: true,
    quantity: { value: round.length, unit: 'no.' },
    ifRain: IF_RAIN.details,
  } as const;
  return [
    activity({
      ...common,
      id: `${id}-prepare`,
      title: `Cut, clean and set out: ${names}`,
      workerMin: totalMin * TASK_SHARES.detail.prepare,
      after: ready,
      rules: workRules('rain'),
      oneGo: false,
      cautions: [CAUTION.edges],
    }),
    activity({
      ...common,
      id: `${id}-prime`,
      title: `Prime: ${names}`,
      workerMin: totalMin * TASK_SHARES.detail.prime,
      after: [...new Set([`${id}-prepare`, ...round.flatMap((d) => d.from)])],
      rules: bondRules(primer, false),
      coats: {
        productId: primer.id,
        surfaces: how.upstand ? ['sheet', 'upstand'] : ['sheet'],
        covers: { value: round.length * PATCH_EDGE_M, unit: 'm' },
      },
      productJob: 'primer',
      holdPoints: [HOLD.lapClean, 'Primer reaches 5-10 mm past the edge of the patch.'],
      cautions: productCautions(primer),
    }),
    activity({
      ...common,
      id: `${id}-patch`,
      title: `Patch: ${names}`,
      workerMin: totalMin * TASK_SHARES.detail.patch,
      after: [`${id}-prime`],
      rules: workRules('rain', 'dew-margin', 'surface-temp'),
      closes: `${id}-prime`,
      noReturn: true,
      productJob: 'patch',
      holdPoints: [HOLD.finger, ...new Set(round.map((d) => d.check))],
      cautions: [CAUTION.hotAir, ...productCautions(patch)],
    }),
  ];
}

/** 'pipe' alone, or 'pipe 1', 'pipe 2' ... */
function numbered(what: string, total: number): string[] {
  return Array.from({ length: total }, (_, i) => (total === 1 ? what : `${what} ${i + 1}`));
}
