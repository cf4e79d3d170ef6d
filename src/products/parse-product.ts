import { contradictions } from './parse-contradictions.ts';
import type { Draft } from './parse-draft.ts';
import { at, issuesOf, type ProductIssue } from './parse-issues.ts';
import { limitsSchema, productFileSchema } from './schema.ts';
import type { Product } from './types.ts';

export type { ProductIssue } from './parse-issues.ts';

export type ParsedProduct =
  | { readonly ok: true; readonly product: Product }
  | { readonly ok: false; readonly issues: readonly ProductIssue[] };

/**
 * A product out of anything a person or file hands over. Nothing is repaired or rounded; fields that
 * may be left out come back as null, or as an empty list of tables. All faults come back at once:
 * fields that are wrong in themselves, and sound fields that contradict each other.
 * @param value  parsed JSON in the format 'layfair-product-1'
 * @returns the product, or every issue found; never throws
 */
export function parseProduct(value: unknown): ParsedProduct {
  const parsed = productFileSchema.safeParse(value);
  const issues = parsed.success ? [] : issuesOf(parsed.error, productFileSchema, value);
  issues.push(...contradictions(draftOf(value)));
  if (!parsed.success || issues.length > 0) return { ok: false, issues };
  const { format: _format, ...product } = parsed.data;
  return { ok: true, product };
}

/** The fields that are sound in themselves, so that one bad field does not hide a contradiction elsewhere. */
function draftOf(value: unknown): Draft {
  const draft: Record<string, unknown> = {};
  for (const [key, schema] of Object.entries(productFileSchema.shape)) {
    const field = schema.safeParse(at(value, [key]));
    if (field.success && field.data !== undefined) draft[key] = field.data;
  }
  const limits: Record<string, unknown> = {};
  for (const [key, schema] of Object.entries(limitsSchema.shape)) {
    const given = at(value, ['limits', key]);
    if (given === undefined) continue;
    const field = schema.safeParse(given);
    if (field.success) limits[key] = field.data;
  }
  return { ...draft, limits } as Draft;
}
