import { parseProduct, productNumbers, readOwnProduct } from '../../products/index.ts';
import { BadInput } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { type CheckedProduct, printProduct } from '../print/product.ts';
import { parseJson, readBytes } from '../read-input.ts';
import { bundledClasses, isWhole } from '../read-products.ts';

export interface ProductOptions {
  readonly json?: boolean;
}

/** `layfair product FILE.json`: whether a product file is in order, and what it comes to. */
export function product(file: string, options: ProductOptions, io: Io): void {
  const value = parseJson(readBytes(file, 'product file'), file, 'product file');
  const checked = isWhole(value) ? whole(value) : own(value, io);
  io.out(options.json === true ? `${JSON.stringify(checked, null, 2)}\n` : printProduct(checked));
}

function whole(value: unknown): CheckedProduct {
  const read = parseProduct(value);
  if (!read.ok) throw new BadInput(read.issues);
  return { product: read.product, numbers: productNumbers(read.product), notes: [] };
}

function own(value: unknown, io: Io): CheckedProduct {
  const read = readOwnProduct(value, bundledClasses(io));
  if (!read.ok) throw new BadInput(read.issues);
  const { product, notes } = read;
  return { product, numbers: productNumbers(product, read), notes };
}
