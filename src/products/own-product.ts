import { LIMIT_NAMES, SUBSTRATE_WORDS } from './number-words.ts';
import { chooseLimits } from './own-product-limits.ts';
import { type OwnProduct, ownProductFileSchema } from './own-product-schema.ts';
import { type SheetFigures, settle } from './own-product-settle.ts';
import { ownTimes } from './own-product-times.ts';
import { issuesOf, type ProductIssue } from './parse-issues.ts';
import { parseProduct } from './parse-product.ts';
import { brief } from './printed-units.ts';
import { show } from './schema-words.ts';
import { type Product, SUBSTRATES } from './types.ts';

export type { OwnProduct } from './own-product-schema.ts';

interface Refused {
  readonly ok: false;
  readonly issues: readonly ProductIssue[];
}

/** What an own product comes to on its class. */
export interface ResolvedOwn {
  readonly ok: true;
  /** With `basedOn` and `limitChoices`. */
  readonly product: Product;
  /** What the sheet itself says, in our units. */
  readonly figures: SheetFigures;
  /** A sentence for each figure that is neither the class's nor the sheet's as it stands. */
  readonly notes: readonly string[];
}

/** Of the class, never of the sheet: to change one is to start from another class. */
const OF_THE_CLASS = ['mechanism', 'closing', 'faces', 'openEndsBy'];

/**
 * A firm's own product out of anything handed over: its shape alone, kept as written.
 * @param value  parsed JSON in the format 'layfair-own-product-1'
 * @returns the product as written, or every issue found; never throws
 */
export function parseOwnProduct(
  value: unknown,
): { readonly ok: true; readonly own: OwnProduct } | Refused {
  const parsed = ownProductFileSchema.safeParse(value);
  if (!parsed.success) {
    const issues = issuesOf(parsed.error, ownProductFileSchema, value).map((issue) =>
      OF_THE_CLASS.includes(issue.path)
        ? {
            path: issue.path,
            message: `${issue.path} is given, but it comes with the class; start from a class that has it so (basedOn).`,
          }
        : issue,
    );
    return { ok: false, issues };
  }
  const { format: _format, ...own } = parsed.data;
  return { ok: true, own };
}

/**
 * An own product on its class: what the sheet says over what the class says, printed figures turned
 * exactly into our units, the stricter of two limits. Mechanism and hazards are the class's; hazards
 * are only ever added to. The whole is then judged as any product is.
 * @param own  as written by the firm
 * @param klass  the class it names in `basedOn`
 * @returns the product with what was chosen, or every issue found
 * @throws Error where the class is not the one the product names
 */
export function resolveOwnProduct(own: OwnProduct, klass: Product): ResolvedOwn | Refused {
  if (own.basedOn !== klass.id)
    throw new Error(`${own.id} starts from ${own.basedOn}, but was given the class ${klass.id}`);
  const { figures, issues: unread } = settle(own, klass.coverage.unit);
  const issues = [...unread, ...misfits(own, klass, figures)];
  const { limits, choices } = chooseLimits(
    klass.limits,
    figures.limits,
    own.takesSheetLimits ?? [],
  );
  const reference = { ...klass.reference, ...figures.reference };
  const { times, notes } = ownTimes(klass, reference, figures);
  const { coverage, note } = coverageOf(klass, figures);
  const sheet = klass.sheet && { ...klass.sheet, ...figures.sheet };
  const file = {
    format: 'layfair-product-1',
    id: own.id,
    name: own.name,
    does: own.does ?? klass.does,
    mechanism: klass.mechanism,
    closing: klass.closing,
    faces: klass.faces,
    solvent: own.solvent ?? klass.solvent,
    reference,
    touchDry: times.touchDry,
    openUntil: times.openUntil,
    openEndsBy: klass.openEndsBy,
    rainAfter: times.rainAfter,
    closeFrom: times.closeFrom,
    footTraffic: times.footTraffic,
    fullCure: times.fullCure,
    tables: [
      ...klass.tables.filter((table) => figures.tables.every(({ event }) => event !== table.event)),
      ...figures.tables,
    ],
    coverage,
    materialTempC: figures.materialTempC ?? klass.materialTempC,
    ...(sheet && { sheet }),
    limits,
    hazards: together(klass.hazards, own.hazards),
    ...((klass.advice || own.advice) && { advice: together(klass.advice ?? [], own.advice) }),
  };
  const parsed = parseProduct(file);
  if (!parsed.ok) {
    // What is worked out from a figure that is wrong in itself is wrong with it.
    const wrong = parsed.issues.some(({ path }) => path === 'coverage.value');
    const told = parsed.issues.filter(
      ({ path }) => !(wrong && path.startsWith('coverage.on.') && own.coverage?.on === undefined),
    );
    issues.push(...told.map((issue) => whose(issue, own, klass)));
  }
  if (!parsed.ok || issues.length > 0) return { ok: false, issues };
  return {
    ok: true,
    product: { ...parsed.product, basedOn: klass.id, limitChoices: choices },
    figures,
    notes: note === null ? notes : [...notes, note],
  };
}

/**
 * Shape, class and figures in one: what a file or request for an own product comes to.
 * @param classes  the bundled classes by id
 * @returns the product as written and resolved, or every issue found; never throws
 */
export function readOwnProduct(
  value: unknown,
  classes: ReadonlyMap<string, Product>,
): (ResolvedOwn & { readonly own: OwnProduct; readonly klass: Product }) | Refused {
  const parsed = parseOwnProduct(value);
  if (!parsed.ok) return parsed;
  const { own } = parsed;
  const issues: ProductIssue[] = [];
  if (classes.has(own.id)) {
    issues.push({
      path: 'id',
      message: `id is '${own.id}', which is a class; a product of your own needs an id of its own, so that jobs never change under it.`,
    });
  }
  const klass = classes.get(own.basedOn);
  if (klass === undefined) {
    issues.push({
      path: 'basedOn',
      message: `basedOn is ${show(own.basedOn)}; classes are ${[...classes.keys()].join(', ')}.`,
    });
    return { ok: false, issues };
  }
  const resolved = resolveOwnProduct(own, klass);
  if (!resolved.ok) return { ok: false, issues: [...issues, ...resolved.issues] };
  return issues.length > 0 ? { ok: false, issues } : { ...resolved, own, klass };
}

/** What the file asks of its class that the class cannot give. */
function misfits(own: OwnProduct, klass: Product, figures: SheetFigures): ProductIssue[] {
  const issues: ProductIssue[] = [];
  const say = (path: string, message: string) => issues.push({ path, message });
  const more = own.does?.filter((job) => !klass.does.includes(job)) ?? [];
  if (more.length > 0) {
    say(
      'does',
      `does names ${more.join(', ')}, but the class ${klass.id} only does ${klass.does.join(', ')}; start from a class made for it.`,
    );
  }
  if (own.sheet !== undefined && klass.sheet === undefined) {
    say('sheet', `sheet is given, but the class ${klass.id} is not a membrane; leave it out.`);
  }
  for (const key of new Set(own.takesSheetLimits)) {
    const limit = figures.limits[key];
    const words = LIMIT_NAMES[key].words.toLowerCase();
    if (own.limits?.[key] === undefined) {
      say(
        'takesSheetLimits',
        `takesSheetLimits names ${key} (${words}), but limits.${key} is missing: there is no figure of the sheet to take.`,
      );
    } else if (limit && limit.source !== 'data sheet') {
      say(
        'takesSheetLimits',
        `takesSheetLimits names ${key} (${words}), but the source of limits.${key} is '${limit.source}': a looser figure is only taken where the data sheet prints it.`,
      );
    }
  }
  return issues;
}

/** A new coverage keeps the class's proportions between substrates where the sheet names none. */
function coverageOf(klass: Product, { coverage }: SheetFigures) {
  const { on: ofClass = {}, ...base } = klass.coverage;
  if (coverage === null) return { coverage: klass.coverage, note: null };
  const { on: ofSheet, ...own } = coverage;
  const on: Record<string, unknown> = { ...ofSheet };
  const carried: string[] = [];
  for (const substrate of SUBSTRATES) {
    const there = ofClass[substrate];
    if (there === undefined || ofSheet[substrate] !== undefined) continue;
    const value = Number(((there.value / base.value) * own.value).toPrecision(3));
    on[substrate] = { value, source: there.source };
    carried.push(`${SUBSTRATE_WORDS[substrate]} ${brief(value)} ${own.unit}`);
  }
  return {
    coverage: Object.keys(on).length === 0 ? own : { ...own, on },
    note:
      carried.length === 0
        ? null
        : `Covers on ${carried.join(', on ')}, in the class's proportion to the sheet's figure.`,
  };
}

const together = (first: readonly string[], then: readonly string[] = []): string[] => [
  ...new Set([...first, ...then]),
];

/** A contradiction with something the file does not name says where that comes from. */
function whose({ path, message }: ProductIssue, own: OwnProduct, klass: Product): ProductIssue {
  const [field = ''] = path.split('.');
  if (field === '' || Object.hasOwn(own, field)) return { path, message };
  return { path, message: `${message} ${field} comes from the class ${klass.id}.` };
}
