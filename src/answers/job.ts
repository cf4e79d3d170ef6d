import { type Issue, issueSentences, jobFileSchema, toJob } from '../contract/index.ts';
import { type FirmRecord, type Job, type ProductSet, whyNotLaid } from '../planner/index.ts';
import type { Product } from '../products/index.ts';
import type { SiteReading } from '../weather/index.ts';

/** Products Layfair knows, by id. */
export type ProductShelf = ReadonlyMap<string, Product>;

export interface ReadyJob {
  readonly job: Job;
  readonly products: ProductSet;
  /** Taken on site; none where nobody has been there yet. */
  readonly readings?: readonly SiteReading[];
  /** Sentences to show with every answer, where a product's times are the firm's own. */
  readonly notes?: readonly string[];
  /** What the firm's own past calls say of its chances; none on the command line, which keeps no calls. */
  readonly record?: FirmRecord;
}

export type JobRead =
  | ({ readonly ok: true } & ReadyJob)
  | { readonly ok: false; readonly issues: readonly Issue[] };

/** A job file's shape and ranges alone, without its products. */
export function parseJob(
  value: unknown,
): { ok: true; job: Job } | { ok: false; issues: readonly Issue[] } {
  const parsed = jobFileSchema.safeParse(value);
  if (parsed.success) return { ok: true, job: toJob(parsed.data) };
  return { ok: false, issues: issueSentences(parsed.error, value) };
}

/**
 * A job out of parsed JSON: shape, ranges, products and the build-up checked, all faults at once.
 */
export function readJob(value: unknown, shelf: ProductShelf): JobRead {
  const parsed = parseJob(value);
  return parsed.ok ? readyJob(parsed.job, shelf) : parsed;
}

/** A job already in shape, with its products off the shelf and the build-up checked. */
export function readyJob(job: Job, shelf: ProductShelf): JobRead {
  const issues: Issue[] = [
    ...datesIssues(job),
    ...hoursIssues(job),
    ...shadeIssues(job),
    ...costsIssues(job),
  ];
  const set: Record<string, Product> = {};
  for (const [role, id] of Object.entries(job.buildUp.products)) {
    const product = shelf.get(id);
    if (product === undefined) {
      const path = `buildUp.products.${role}`;
      issues.push({
        path,
        message: `${path} is '${id}'; known products are ${[...shelf.keys()].join(', ')}.`,
      });
    } else {
      set[role] = product;
    }
  }
  if (issues.length > 0) return { ok: false, issues };
  const products = set as ProductSet;
  const refused = whyNotLaid(job, products, [...shelf.values()]);
  if (refused.length > 0) return { ok: false, issues: refused };
  return { ok: true, job, products };
}

function datesIssues(job: Job): Issue[] {
  if (job.earliest === null || job.latest === null || job.earliest <= job.latest) return [];
  return [
    {
      path: 'latest',
      message: `latest is ${job.latest}; it must not be before earliest, ${job.earliest}.`,
    },
  ];
}

function shadeIssues({ site }: Job): Issue[] {
  if (site.wall === null || site.skyline.length === 0) return [];
  return [
    {
      path: 'site.skyline',
      message:
        'site.skyline and site.wall are both given; give one: the wall can be drawn into the skyline.',
    },
  ];
}

function costsIssues({ costs }: Job): Issue[] {
  const { calledOff, standDown } = costs;
  if (calledOff === undefined || calledOff <= standDown) return [];
  return [
    {
      path: 'costs.calledOff',
      message: `costs.calledOff is ${calledOff}; it must not be above costs.standDown, ${standDown}: calling off early costs no more than on site.`,
    },
  ];
}

function hoursIssues(job: Job): Issue[] {
  const { dayStart, dayEnd } = job.crew;
  if (dayStart < dayEnd) return [];
  return [
    {
      path: 'crew.dayEnd',
      message: `crew.dayEnd is ${dayEnd}; it must be later than crew.dayStart, ${dayStart}.`,
    },
  ];
}
