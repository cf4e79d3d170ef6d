import type { Product } from '../../../src/products/index.ts';

/** The firm's own products first: they are what stands on the roof. */
export function ProductOptions({ products }: { products: readonly Product[] }) {
  const own = products.filter(({ basedOn }) => basedOn !== undefined);
  const classes = products.filter(({ basedOn }) => basedOn === undefined);
  const options = (list: readonly Product[]) =>
    list.map(({ id, name }) => (
      <option key={id} value={id}>
        {name}
      </option>
    ));
  if (own.length === 0) return <>{options(classes)}</>;
  return (
    <>
      <optgroup label="Your own products">{options(own)}</optgroup>
      <optgroup label="Product classes">{options(classes)}</optgroup>
    </>
  );
}
