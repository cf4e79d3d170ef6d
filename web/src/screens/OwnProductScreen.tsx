import { useLocation, useRoute } from 'preact-iso';
import type { ProductAnswer } from '../../../src/contract/index.ts';
import type { Product } from '../../../src/products/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { PRODUCTS, productPath } from '../api/paths.ts';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { OwnProductForm } from '../products/OwnProductForm.tsx';
import '../products/products.css';

/** A new product of the firm's own, or one to change: then its id is in the address. */
export function OwnProductScreen() {
  const id = useRoute().params['id'];
  return id === undefined ? <NewProduct /> : <ChangedProduct key={id} id={id} />;
}

const useClasses = () => {
  const { data, problem } = useHeld<{ products: Product[] }>(PRODUCTS);
  const classes = data?.products.filter(({ basedOn }) => basedOn === undefined) ?? null;
  return { classes, problem };
};

const above = (
  <p class="trail">
    <a href="/products">All products</a>
  </p>
);

function NewProduct() {
  const { query } = useLocation();
  const { classes, problem } = useClasses();
  return (
    <Screen title="A product of your own" above={above}>
      {problem && <Trouble problem={problem} again={() => void fetchHeld(PRODUCTS)} />}
      {classes ? (
        <OwnProductForm classes={classes} from={query['from'] ?? 'contact-solvent'} kept={null} />
      ) : (
        !problem && <Waiting words="Fetching the products …" />
      )}
    </Screen>
  );
}

function ChangedProduct({ id }: { id: string }) {
  const { classes, problem: noClasses } = useClasses();
  const kept = useHeld<ProductAnswer>(productPath(id));
  const problem = noClasses ?? kept.problem;
  const again = () => {
    void fetchHeld(PRODUCTS);
    void fetchHeld(productPath(id));
  };
  return (
    <Screen title={`Change ${kept.data?.own?.name ?? 'a product'}`} above={above}>
      {problem && <Trouble problem={problem} again={again} />}
      {kept.data && kept.data.own === null && (
        <p>
          This is a class, which is not changed here.{' '}
          <a href={`/products/new?from=${encodeURIComponent(id)}`}>Start your own from it</a>
        </p>
      )}
      {classes && kept.data?.own && <OwnProductForm classes={classes} from="" kept={kept.data} />}
      {!problem && !(classes && kept.data) && <Waiting words="Fetching the product …" />}
    </Screen>
  );
}
