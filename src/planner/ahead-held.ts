import { brokenLimits } from '../products/index.ts';
import type { SectionTask } from '../stages/index.ts';
import { stepAt } from '../weather/index.ts';
import { bitsOf, RULE_BIT } from './masks.ts';
import type { Prepared } from './prepare.ts';
import { median } from './quantile.ts';
import type { Rule, Whose } from './rules/index.ts';

/** A limit that holds a coating back, and whose it is. */
export interface Held {
  readonly rule: Rule['id'];
  /** What it is and what is asked: 'surface 3.1 K above dew point, 5 K asked'. */
  readonly words: string;
  readonly whose: Whose;
  /** Forecasts in which it holds, out of those that reach so far. */
  readonly count: number;
  readonly of: number;
  /** The forecasts were made from a single one. */
  readonly made?: true;
}

/**
 * What holds coating and closing back at a moment: some limit broken in more of the forecasts than
 * the job's confidence lets pass; the one broken in most of them is named.
 * @param members  the forecasts that know this moment
 * @returns null = it may start
 */
export function heldAt(
  prepared: Prepared,
  task: SectionTask,
  members: readonly number[],
  ms: number,
): Held | null {
  const { grid } = prepared;
  const step = stepAt(grid, ms);
  // Both tasks follow one on the other: nothing is coated that the wind would keep from being closed.
  const bits = bitsOf(task.coat.rules) | bitsOf(task.close.rules);
  const mask = prepared.mask(task.coat);
  const held = members.filter((m) => (mask.broken[m * grid.steps + step]! & bits) !== 0);
  const mayHold = (1 - prepared.job.confidence) * members.length;
  if (held.length <= mayHold + 1e-9) return null;
  let found: { rule: Rule; by: readonly number[] } | null = null;
  for (const rule of mask.rules) {
    const bit = RULE_BIT[rule.id] & bits;
    const by = held.filter((m) => (mask.broken[m * grid.steps + step]! & bit) !== 0);
    if (by.length > (found?.by.length ?? 0)) found = { rule, by };
  }
  if (found === null) throw new Error(`held at ${ms} by a rule nobody evaluates`);
  const { rule, by } = found;
  return {
    rule: rule.id,
    ...wordsFor(prepared, task, rule, by, step),
    count: by.length,
    of: members.length,
    ...(grid.source.madeFromOne ? { made: true as const } : {}),
  };
}

/** What is measured and what is asked, at the middle one of the forecasts that are held. */
function wordsFor(
  prepared: Prepared,
  task: SectionTask,
  rule: Rule,
  by: readonly number[],
  step: number,
): Pick<Held, 'words' | 'whose'> {
  const { grid, limits, productById } = prepared;
  const coats = task.coat.coats!;
  const product = productById.get(coats.productId)!;
  const surface = prepared.surface(coats.surfaces[0] ?? 'deck');
  const mid = (column: Float32Array): number =>
    median(by.map((m) => column[m * grid.steps + step]!))!;
  if (rule.id === 'dew-margin') {
    const needK = Math.max(limits.dewMarginMinK, product.limits.dewMarginMinK?.value ?? 0);
    const gotK = mid(surface.dewMarginK);
    const words =
      gotK <= 0
        ? `surface at or below the dew point, ${needK} K above it asked`
        : `surface ${gotK.toFixed(1)} K above dew point, ${needK} K asked`;
    return { words, whose: rule.whose };
  }
  const prefix = MEASURED[rule.id];
  if (prefix === undefined) return { words: rule.words, whose: rule.whose };
  const broken = brokenLimits(product, {
    airTempC: mid(grid.airTempC),
    surfaceTempC: mid(surface.surfaceTempC),
    dewPointC: mid(grid.dewPointC),
  }).find(({ limit }) => limit.startsWith(prefix));
  return { words: broken?.words ?? rule.words, whose: rule.whose };
}

/** Rules of a product's own limits, by what those limits are called there. */
const MEASURED: Partial<Record<Rule['id'], string>> = {
  'air-temp': 'air',
  'surface-temp': 'surface',
  humidity: 'relHum',
};
