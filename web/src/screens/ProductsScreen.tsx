import type { Product } from '../../../src/products/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { PRODUCTS } from '../api/paths.ts';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { ProductList, type Unusable } from '../products/ProductList.tsx';
import '../products/products.css';

export function ProductsScreen() {
  const { data, problem, busy } = useHeld<{ products: Product[]; unusable: Unusable[] }>(PRODUCTS);
  return (
    <Screen title="Products">
      <p>
        What a product of that kind usually does, without any maker’s name, and your own with the
        figures of their data sheets. The data sheet of what is in the tin comes before all of it.
      </p>
      <p>
        <a class="step" href="/products/new">
          Enter a product of your own
        </a>
      </p>
      {problem && <Trouble problem={problem} again={() => void fetchHeld(PRODUCTS)} />}
      {!data && busy && <Waiting words="Fetching the products …" />}
      {data && <ProductList products={data.products} unusable={data.unusable} />}
    </Screen>
  );
}
