import type { Product, ProductJob } from '../../../src/products/index.ts';
import { jobsWords, natureWords, sideWords } from './words.ts';

/** Where a product is looked for first, by the first thing it does. */
const SHELVES: readonly (readonly [string, readonly ProductJob[]])[] = [
  ['Field and edges', ['field', 'perimeter']],
  ['Laps', ['primer', 'lap-tape']],
  ['Details and sealing', ['patch', 'sealant', 'water-block']],
  ['Night seal', ['night-seal']],
  ['Sheets', ['sheet']],
];

export interface Unusable {
  readonly id: string;
  readonly name: string;
  readonly issues: readonly { readonly path: string; readonly message: string }[];
}

interface Props {
  readonly products: readonly Product[];
  readonly unusable: readonly Unusable[];
}

export function ProductList({ products, unusable }: Props) {
  const own = products.filter(({ basedOn }) => basedOn !== undefined);
  const classes = products.filter(({ basedOn }) => basedOn === undefined);
  return (
    <>
      {unusable.length > 0 && (
        <section aria-labelledby="unusable-title">
          <h2 id="unusable-title">Your own, not usable until changed</h2>
          <ul class="product-list">
            {unusable.map(({ id, name, issues }) => (
              <li key={id}>
                <h3>
                  <a href={`/product/${encodeURIComponent(id)}`}>{name}</a>
                </h3>
                {issues.map(({ path, message }) => (
                  <p key={path + message}>{message}</p>
                ))}
              </li>
            ))}
          </ul>
        </section>
      )}
      <Shelf title="Your own" products={own} all={products} />
      {SHELVES.map(([title, jobs]) => (
        <Shelf
          key={title}
          title={title}
          products={classes.filter(({ does }) => does[0] !== undefined && jobs.includes(does[0]))}
          all={products}
        />
      ))}
    </>
  );
}

interface ShelfProps {
  readonly title: string;
  readonly products: readonly Product[];
  readonly all: readonly Product[];
}

function Shelf({ title, products, all }: ShelfProps) {
  if (products.length === 0) return null;
  const id = `shelf-${title.toLowerCase().replaceAll(' ', '-')}`;
  return (
    <section class="shelf" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      <ul class="product-list">
        {products.map((product) => (
          <li key={product.id}>
            <h3>
              <a href={`/product/${encodeURIComponent(product.id)}`}>{product.name}</a>
            </h3>
            <p>
              For: {jobsWords(product.does)}. {natureWords(product)} {timesWords(product)}
              {product.basedOn !== undefined &&
                ` Starts from: ${all.find(({ id }) => id === product.basedOn)?.name ?? product.basedOn}.`}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

function timesWords({ touchDry, openUntil, learned }: Product): string {
  const words = (
    [
      ['Touch dry', touchDry],
      ['Usable until', openUntil],
    ] as const
  ).flatMap(([name, time]) =>
    time === null
      ? []
      : [
          `${name}: ${sideWords({ values: [time.lowMin, time.typicalMin, time.highMin], unit: 'min' })}`,
        ],
  );
  const whose = learned === undefined ? '' : ' (as your own films dry)';
  return words.length === 0 ? '' : `${words.join('; ')}${whose}.`;
}
