import { contradictions, type Draft, type ProductIssue } from './parse-contradictions.ts';
import { limitsSchema, productFileSchema, show } from './schema.ts';
import type { Product } from './types.ts';

export type { ProductIssue } from './parse-contradictions.ts';

export type ParsedProduct =
  | { readonly ok: true; readonly product: Product }
  | { readonly ok: false; readonly issues: readonly ProductIssue[] };

/**
 * A product out of anything a person or file hands over. Nothing is repaired, rounded or filled in.
 * All faults come back at once: fields that are wrong in themselves, and sound fields that
 * contradict each other.
 * @param value  parsed JSON in the format 'layfair-product-1'
 * @returns the product, or every issue found; never throws
 */
export function parseProduct(value: unknown): ParsedProduct {
  const parsed = productFileSchema.safeParse(value);
  const issues: ProductIssue[] = [];
  for (const issue of parsed.error?.issues ?? []) {
    const path = issue.path.join('.');
    if (issue.code === 'unrecognized_keys') {
      for (const key of issue.keys) issues.push(unknownField(path, key, value));
    } else {
      issues.push({ path, message: `${path === '' ? 'The file' : path} ${issue.message}` });
    }
  }
  issues.push(...contradictions(draftOf(value)));
  if (!parsed.success || issues.length > 0) return { ok: false, issues };
  const { format: _format, ...product } = parsed.data;
  return { ok: true, product };
}

function unknownField(parent: string, key: string, value: unknown): ProductIssue {
  const path = parent === '' ? key : `${parent}.${key}`;
  const holder = at(value, parent === '' ? [] : parent.split('.'));
  const known = Object.keys(schemaShapeAt(parent)).join(', ');
  return {
    path,
    message: `${path} is ${show(at(holder, [key]))}, but there is no such field; accepted are ${known}.`,
  };
}

function schemaShapeAt(parent: string): object {
  const { shape } = productFileSchema;
  if (parent === '') return shape;
  if (parent === 'limits') return limitsSchema.shape;
  if (parent === 'reference') return shape.reference.shape;
  if (parent === 'coverage') return shape.coverage.shape;
  if (parent.startsWith('limits.')) return { value: 0, source: 0 };
  return shape.touchDry.unwrap().shape;
}

/** The fields that are sound in themselves, so that one bad field does not hide a contradiction elsewhere. */
function draftOf(value: unknown): Draft {
  const draft: Record<string, unknown> = {};
  for (const [key, schema] of Object.entries(productFileSchema.shape)) {
    if (key === 'limits') continue;
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

function at(value: unknown, path: readonly string[]): unknown {
  let here = value;
  for (const key of path) {
    if (typeof here !== 'object' || here === null) return undefined;
    here = (here as Record<string, unknown>)[key];
  }
  return here;
}
