import type { BuildUpIssue } from './compatibility.ts';
import { type DayWorkQuestion, planDayWork } from './day-work.ts';
import { SMALLEST_SECTION_M2 } from './field.ts';
import { LONGEST_AT_ONCE_M } from './sections.ts';
import type { Activity, DayWork } from './types.ts';

export const SECTION_KINDS = ['field', 'edges', 'upstands', 'laps'] as const;
/** Work that is coated and closed section by section. */
export type SectionKind = (typeof SECTION_KINDS)[number];

/** One such work as a gang does it: the two tasks of a section and how they grow with its size. */
export interface SectionTask {
  readonly kind: SectionKind;
  /** The pair as it stands on the day's list: product, faces, rules, cautions, hold points. */
  readonly coat: Activity;
  readonly close: Activity;
  readonly unit: 'm2' | 'm';
  /** Hands at it, of the crew asked about. */
  readonly people: number;
  /** The gang's minutes for each m2 or m. */
  readonly coatMinPer: number;
  readonly closeMinPer: number;
  /** Largest section the day's list would hold were there no hurry: half a sheet, a side, a lap. */
  readonly mostAtOnce: number;
  /** A smaller one is no way to lay a roof. */
  readonly smallest: number;
}

export type SectionTasksQuestion = Omit<
  DayWorkQuestion,
  'usableMin' | 'usablePerimeterMin' | 'usablePrimerMin'
>;

export type SectionTasksAnswer =
  | { readonly ok: true; readonly bay: DayWork['bay']; readonly tasks: readonly SectionTask[] }
  | { readonly ok: false; readonly issues: readonly BuildUpIssue[] };

/** Shortest length of edge or lap coated at once [m], as in the day's list. */
const SHORTEST_M = 1;
/** Nothing goes off: sections come out as large as they are ever listed. */
const NO_HURRY_MIN = 1440;

/**
 * The works of a laying day that are coated and closed in sections, read off the day's own list, so
 * that both always say the same. Kinds the day does not hold (no laps, no upstands) are left out.
 * @throws RangeError as `planDayWork`
 */
export function sectionTasks(q: SectionTasksQuestion): SectionTasksAnswer {
  const planned = planDayWork({
    ...q,
    usableMin: NO_HURRY_MIN,
    usablePerimeterMin: NO_HURRY_MIN,
    usablePrimerMin: NO_HURRY_MIN,
  });
  if (!planned.ok) return planned;
  const { activities, bay } = planned.work;
  const tasks = SECTION_KINDS.flatMap((kind) => {
    const coats = activities.filter(
      (a) => a.coats !== undefined && a.quantity !== null && kindOf(a) === kind,
    );
    const task = taskOf(kind, coats, activities, q.crewPeople);
    return task === null ? [] : [task];
  });
  return { ok: true, bay, tasks };
}

function kindOf(activity: Activity): SectionKind | null {
  switch (activity.stage) {
    case 'field':
    case 'laps':
      return activity.stage;
    case 'perimeter':
      return activity.id.startsWith('upstand-') ? 'upstands' : 'edges';
    default:
      return null;
  }
}

function taskOf(
  kind: SectionKind,
  coats: readonly Activity[],
  all: readonly Activity[],
  crewPeople: number,
): SectionTask | null {
  const coat = coats[0];
  if (coat === undefined) return null;
  const close = all.find((a) => a.closes === coat.id);
  const quantity = coat.quantity!;
  if (close === undefined || quantity.unit === 'no.')
    throw new Error(`${coat.id} is coated but never closed`);
  const people = Math.min(crewPeople, coat.maxPeople);
  const per = (activity: Activity): number =>
    activity.workerMin / Math.min(crewPeople, activity.maxPeople) / quantity.value;
  // Sections of one half sheet, side or lap carry its name and a number.
  const whole = new Map<string, number>();
  for (const { id, quantity } of coats) {
    const of = id.replace(/-\d+-[a-z]+$/, '');
    whole.set(of, (whole.get(of) ?? 0) + quantity!.value);
  }
  const largest = Math.max(...whole.values());
  return {
    kind,
    coat,
    close,
    unit: quantity.unit,
    people,
    coatMinPer: per(coat),
    closeMinPer: per(close),
    mostAtOnce: kind === 'field' ? largest : Math.min(LONGEST_AT_ONCE_M[kind], largest),
    smallest: kind === 'field' ? SMALLEST_SECTION_M2 : SHORTEST_M,
  };
}
