/** The bundled product classes, read as the tool reads them. */
import { readdirSync, readFileSync } from 'node:fs';
import { type Product, parseProduct } from '../../src/products/index.ts';

const folder = new URL('../../data/products/', import.meta.url);

const products = new Map(
  readdirSync(folder)
    .filter((name) => name.endsWith('.json'))
    .map((name) => {
      const parsed = parseProduct(JSON.parse(readFileSync(new URL(name, folder), 'utf8')));
      if (!parsed.ok) throw new Error(`${name}: ${parsed.issues.map((i) => i.message).join(' ')}`);
      return [parsed.product.id, parsed.product] as const;
    }),
);

export function productById(id: string): Product {
  const found = products.get(id);
  if (found === undefined) throw new Error(`no product '${id}' in data/products`);
  return found;
}

export const everyProduct = (): readonly Product[] => [...products.values()];
