import type { ProductFile } from './schema.ts';

/** A product whose unsound fields are left out. */
export type Draft = Partial<ProductFile> & { readonly limits: ProductFile['limits'] };

/** Tells a contradiction: where, and a whole sentence. */
export type Say = (path: string, message: string) => void;
