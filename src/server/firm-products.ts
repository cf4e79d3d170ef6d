import type { ProductShelf } from '../answers/index.ts';
import {
  type OwnProduct,
  type Product,
  type ProductIssue,
  type ResolvedOwn,
  readOwnProduct,
} from '../products/index.ts';
import type { Ctx, ProductRow, Store } from '../store/index.ts';

/** A product of the firm's own: what was written, and what it comes to or why it no longer does. */
export interface FirmProduct {
  readonly row: ProductRow;
  readonly resolved: (ResolvedOwn & { readonly klass: Product }) | null;
  /** Where a class has changed since it was saved so that the two now contradict each other. */
  readonly issues: readonly ProductIssue[];
}

/** As an own product is written in a file or request. */
export const asFile = (own: OwnProduct) => ({ format: 'layfair-own-product-1' as const, ...own });

/** The bundled classes and, beside them, the firm's own products as they are in the store. */
export class FirmProducts {
  readonly classes: ProductShelf;
  readonly #store: Store;
  readonly #ctx: Ctx;
  readonly #shelf: Map<string, Product>;
  #own: ReadonlyMap<string, FirmProduct> = new Map();

  constructor(store: Store, ctx: Ctx, classes: ProductShelf) {
    this.#store = store;
    this.#ctx = ctx;
    this.classes = classes;
    this.#shelf = new Map(classes);
  }

  /** What a job may name; the same object for good, with what the last `refresh` found on it. */
  get shelf(): ProductShelf {
    return this.#shelf;
  }

  /** The firm's own, by name. */
  get own(): ReadonlyMap<string, FirmProduct> {
    return this.#own;
  }

  /** Why a product of the firm's own is not on the shelf; none where it is, or is not known. */
  readonly offShelf = (id: string): readonly ProductIssue[] => this.#own.get(id)?.issues ?? [];

  /** Another process may have saved one: looked up anew for every request, worked out once per version. */
  async refresh(): Promise<void> {
    const { value: rows } = await this.#store.listProducts(this.#ctx);
    const own = new Map<string, FirmProduct>();
    for (const row of rows) {
      const { id } = row.product;
      const known = this.#own.get(id);
      own.set(id, known?.row.version === row.version ? known : this.#resolve(row));
    }
    this.#own = own;
    for (const id of this.#shelf.keys()) if (!this.classes.has(id)) this.#shelf.delete(id);
    for (const [id, { resolved }] of own)
      if (resolved !== null) this.#shelf.set(id, resolved.product);
  }

  #resolve(row: ProductRow): FirmProduct {
    const read = readOwnProduct(asFile(row.product), this.classes);
    return read.ok
      ? { row, resolved: read, issues: [] }
      : { row, resolved: null, issues: read.issues };
  }
}
