import { z } from 'zod';
import type { OwnProduct, Product, ProductNumber } from '../products/index.ts';

/**
 * A firm's own products over HTTP. What such a product must be is for the products themselves to say,
 * in sentences of their own; here is only what goes round them.
 */

/** `version` is the one that was seen and changed; null = a new product. */
export const putProductSchema = z.strictObject({
  requestId: z.uuid(),
  version: z.int().positive().nullable(),
  product: z.unknown(),
});

/** A product as it is kept, with codes 'version-conflict' and 'id-taken'. */
export const productRowSchema = z.object({
  version: z.int(),
  product: z.looseObject({
    format: z.literal('layfair-own-product-1'),
    id: z.string(),
    name: z.string(),
  }),
});
export type ProductRow = z.infer<typeof productRowSchema>;

/** A class or a product of the firm's own, every number with where it comes from. */
export interface ProductAnswer {
  /** null for a class: classes are not changed here. */
  readonly version: number | null;
  /** As the firm wrote it; null for a class. */
  readonly own: ({ readonly format: 'layfair-own-product-1' } & OwnProduct) | null;
  /** What Layfair plans with; null where it contradicts its class, which has changed since. */
  readonly product: Product | null;
  readonly numbers: readonly ProductNumber[];
  /** A sentence for each figure that was worked out. */
  readonly notes: readonly string[];
  readonly issues: readonly { readonly path: string; readonly message: string }[];
}
