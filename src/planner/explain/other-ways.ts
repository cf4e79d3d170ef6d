import type { Product } from '../../products/index.ts';
import { roofLie } from '../../roof/index.ts';
import { MS_PER_MINUTE } from '../../units/index.ts';
import { baysOfJob, jobIssues, known } from '../bays.ts';
import type { DayOption } from '../day-option.ts';
import type { DayPlan } from '../day-plan.ts';
import type { JobChange, Prepared, ProductSet } from '../prepare.ts';
import { planFor } from '../search/plan-for.ts';
import { type LayingWay, wayOf } from '../search/way.ts';
import { startsOver, startsRound } from './starts.ts';
import type { TurnKind } from './turns.ts';

/** Another way through a day, with the starts to try it from. */
export interface Other {
  readonly kind: TurnKind;
  /** As the beginning of a sentence. */
  readonly words: string;
  readonly change: JobChange;
  readonly plan: DayPlan;
  readonly way: LayingWay;
  readonly starts: readonly number[];
}

/** Starts tried round the one found, and where none was found, over the day. */
const ROUND_MIN = [-60, 0, 60];
const EVERY_MS = 120 * MS_PER_MINUTE;
const FURTHER_SPLITS = 2;
const MOST_PEOPLE = 30;

/** Smaller bays, other adhesives and one more person, as far as they can be laid at all. */
export function otherWays(option: DayOption, spares: readonly Product[]): readonly Other[] {
  return [...smallerBays(option), ...otherAdhesives(option, spares), ...oneMore(option)];
}

function smallerBays(option: DayOption): Other[] {
  const { prepared, work } = option.plan;
  const { job } = prepared;
  // Of a roof half laid the split stays as it was begun.
  if (job.baysDone > 0) return [];
  const { areaM2 } = roofLie(job.roof);
  return Array.from({ length: FURTHER_SPLITS }, (_, n) => work.bay.of + n + 1).flatMap((days) => {
    const change = { bayAreaM2: areaM2 / days };
    return made(option, 'smaller bay', change, ({ bay }) => {
      const than = `rather than ${Math.round(work.bay.areaM2)}`;
      return `With ${Math.round(bay.areaM2)} m² laid that day ${than} (${bay.of} laying days in all rather than ${work.bay.of})`;
    });
  });
}

/** The adhesives of the build-up; what else it names is not chosen by the weather. */
const ADHESIVES = [
  { role: 'field', words: 'for the field' },
  { role: 'perimeter', words: 'for edges and upstands' },
] as const;

function otherAdhesives(option: DayOption, spares: readonly Product[]): Other[] {
  const { prepared } = option.plan;
  return ADHESIVES.flatMap(({ role, words }) =>
    spares
      .filter(({ id, does }) => does.includes(role) && id !== prepared.products[role].id)
      .flatMap((spare) => {
        // One that is on this roof already is the same tin, with what was learned of it.
        const product = prepared.productById.get(spare.id) ?? spare;
        const products: ProductSet = { ...prepared.products, [role]: product };
        const change = { products, ...sameBay(prepared) };
        return made(option, 'other adhesive', change, () => `With ${product.name} ${words}`);
      }),
  );
}

function oneMore(option: DayOption): Other[] {
  const { prepared } = option.plan;
  const people = prepared.job.crew.people + 1;
  if (people > MOST_PEOPLE) return [];
  const change = { people, ...sameBay(prepared) };
  return made(
    option,
    'one more person',
    change,
    () => `With ${people} people rather than ${people - 1}`,
  );
}

/** A change that lets more be laid in a day is not to be told by laying more. */
function sameBay({ job, products }: Prepared): JobChange {
  return { bayAreaM2: known(baysOfJob(job, products)).bayAreaM2 };
}

function made(
  option: DayOption,
  kind: TurnKind,
  change: JobChange,
  words: (work: DayPlan['work']) => string,
): Other[] {
  const { plan: was, startMs } = option;
  const prepared = was.prepared.variant(change);
  const { job, products } = prepared;
  if (jobIssues(job, products).length > 0) return [];
  const plan = planFor(prepared, option.day);
  if (job.baysDone > 0 && plan.work.bay.of !== was.work.bay.of) return [];
  if (kind === 'smaller bay' && !(plan.work.bay.areaM2 < was.work.bay.areaM2)) return [];
  const starts =
    startMs === null ? startsOver(plan, EVERY_MS) : startsRound(plan, startMs, ROUND_MIN);
  return [{ kind, words: words(plan.work), change, plan, way: wayOf(plan), starts }];
}
