import { type AnyRoof, type LayingBay, layingBays, type TakeOffOptions } from '../roof/index.ts';
import { inRange } from '../units/index.ts';
import { type BuildUpIssue, buildUpIssues } from './compatibility.ts';
import type { BuildUpProducts, DayContext } from './context.ts';
import { detailWork } from './details.ts';
import { edgeFixings, perimeterWork } from './edges.ts';
import { fieldWork, SMALLEST_SECTION_M2 } from './field.ts';
import { finalCheck, nightSealWork, sealantWork } from './finish.ts';
import { lapWork } from './laps.ts';
import { preparation } from './prepare.ts';
import { type LabourRates, labourRates, workerMin } from './rates.ts';
import { fieldMethod, largestSectionM2, windowMin } from './sections.ts';
import { safeStops } from './stops.ts';
import type { Activity, BuildUp, DayWork, StageKind } from './types.ts';

export interface DayWorkQuestion {
  readonly roof: AnyRoof;
  readonly buildUp: BuildUp;
  readonly products: BuildUpProducts;
  /** 1..30. */
  readonly crewPeople: number;
  /** Largest area for one laying day [m2], above 0. */
  readonly bayAreaM2: number;
  /** 0 = the first bay. */
  readonly bayIndex: number;
  /**
   * Minutes the field adhesive can be used in today's weather: laid wet, its open time; closed touch
   * dry, from touch dry to the end of open time. 1..1440.
   */
  readonly usableMin: number;
  /** The same for edges and upstands, and for primer; the sheet's typical figures where left out. */
  readonly usablePerimeterMin?: number;
  readonly usablePrimerMin?: number;
  readonly rates?: LabourRates;
  readonly layout?: TakeOffOptions;
}

export type DayWorkAnswer =
  | { readonly ok: true; readonly work: DayWork; readonly warnings: readonly string[] }
  | { readonly ok: false; readonly issues: readonly BuildUpIssue[] };

/**
 * The crew's list for one laying day, in priority order, or why this build-up cannot be laid.
 *
 * Opening is the first activity after which rain does harm: stripping, else the first board laid dry,
 * else the first adhesive.
 * Rain-safe is reached when every activity marked so is finished: field, laps, edges, upstands, bars,
 * patches, outlets and the night seal. Trims and sealant come after it.
 * @throws RangeError on a number outside its range or a bay that does not exist
 */
export function planDayWork(q: DayWorkQuestion): DayWorkAnswer {
  inRange('crewPeople', q.crewPeople, 1, 30);
  inRange('usableMin', q.usableMin, 1, 1440);
  inRange('usablePerimeterMin', q.usablePerimeterMin ?? 1, 1, 1440);
  inRange('usablePrimerMin', q.usablePrimerMin ?? 1, 1, 1440);
  const bays = layingBays(q.roof, q.bayAreaM2);
  inRange('bayIndex', q.bayIndex, 0, bays.length - 1);
  const bay = bays[q.bayIndex];
  if (bay === undefined) throw new RangeError(`bayIndex (${q.bayIndex}) must be a whole number`);
  const issues = [...buildUpIssues(q.buildUp, q.products), ...crewIssues(q)];
  if (issues.length > 0) return { ok: false, issues };

  const day = contextOf(q, bay);
  return { ok: true, work: assemble(day), warnings: day.takeOff.warnings };
}

function crewIssues(q: DayWorkQuestion): BuildUpIssue[] {
  if (q.crewPeople < 2) {
    return [
      {
        path: 'crew.people',
        message: `A crew of ${q.crewPeople} cannot unroll and fold a sheet without creasing it; two or more are needed.`,
      },
    ];
  }
  const method = fieldMethod(q.products.field, q.rates ?? labourRates, q.crewPeople);
  const sectionM2 = largestSectionM2(method, q.usableMin);
  if (sectionM2 >= SMALLEST_SECTION_M2) return [];
  return [
    {
      path: 'buildUp.products.field',
      message: `${q.products.field.name} stays usable for ${q.usableMin} min, in which this crew coats and closes only ${sectionM2.toFixed(2)} m²; under ${SMALLEST_SECTION_M2} m² it cannot be laid. Wait for cooler or damper air, or choose another product.`,
    },
  ];
}

function contextOf(q: DayWorkQuestion, bay: LayingBay): DayContext {
  return {
    bay,
    takeOff: bay.takeOff(q.layout),
    buildUp: q.buildUp,
    products: q.products,
    people: q.crewPeople,
    rates: q.rates ?? labourRates,
    usable: {
      fieldMin: q.usableMin,
      perimeterMin: q.usablePerimeterMin ?? windowMin(q.products.perimeter),
      primerMin: q.usablePrimerMin ?? windowMin(q.products.primer),
    },
  };
}

function assemble(day: DayContext): DayWork {
  const field = fieldWork(day);
  const fieldClosed = [...new Set(field.halves.map((h) => h.closedBy))];
  const laps = lapWork(day, field.halves);
  const lapsClosed = [...laps.closedBy.values()].flat();
  const edges = perimeterWork(day, field.halves);
  const toRainSafe = markOpening([
    ...preparation(day),
    ...field.activities,
    ...laps.activities,
    ...edges.activities,
    ...detailWork(day, edges, fieldClosed, lapsClosed),
    ...nightSealWork(day, field.halves, lapsClosed),
    ...edgeFixings(day, edges),
  ]);
  const sealant = sealantWork(day, ends(toRainSafe.filter((a) => a.forRainSafe)));
  const list = [...toRainSafe, ...sealant];
  const activities = [...list, finalCheck(day, ends(list))];
  // Stopped at the worst moment nothing is bonded at the edges yet: the whole outline is open.
  const outlineM = day.takeOff.edges.reduce((sum, edge) => sum + edge.lengthM, 0);
  return {
    bay: { number: day.bay.number, of: day.bay.of, areaM2: day.bay.areaM2 },
    activities,
    sectionM2: field.sectionM2,
    stops: safeStops(day, activities),
    nightSeal: { lengthM: outlineM, workerMin: workerMin(day.rates.nightSeal, outlineM) },
  };
}

/** Stripping bares what was covered; boards and adhesive are spoilt once they are out. */
const OPENING_STAGES: readonly StageKind[] = ['open-up', 'insulation', 'deck', 'field'];

/** Marks the first activity after which rain does harm; nothing before it counts towards rain-safe. */
function markOpening(list: readonly Activity[]): Activity[] {
  const at = list.findIndex(({ stage }) => OPENING_STAGES.includes(stage));
  return list.map((a, i) => {
    if (i < at) return { ...a, forRainSafe: false };
    return i === at ? { ...a, opens: true, noReturn: true } : a;
  });
}

/** Ids nothing else in the list waits for. */
function ends(list: readonly Activity[]): string[] {
  const waitedFor = new Set(list.flatMap((a) => a.after));
  return list.filter((a) => !waitedFor.has(a.id)).map((a) => a.id);
}
