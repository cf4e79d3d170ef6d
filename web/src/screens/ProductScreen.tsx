import { useRoute } from 'preact-iso';
import type { ProductAnswer } from '../../../src/contract/index.ts';
import type { Product } from '../../../src/products/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { PRODUCTS, productPath } from '../api/paths.ts';
import { Cautions } from '../parts/Cautions.tsx';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { Learned } from '../products/Learned.tsx';
import { Numbers } from '../products/Numbers.tsx';
import { TimesTables } from '../products/TimesTables.tsx';
import { jobsWords, natureWords } from '../products/words.ts';
import { figure } from '../words/figures.ts';
import '../products/products.css';

function Lines({ title, lines }: { title: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <section class="numbers">
      <h2>{title}</h2>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}

function Sheet({ answer }: { answer: ProductAnswer & { product: Product } }) {
  const { product, numbers, notes } = answer;
  const own = answer.own !== null;
  const { airTempC, relHumPct, windMps } = product.reference;
  return (
    <>
      <p class="sentence">For: {jobsWords(product.does)}.</p>
      <p>
        {natureWords(product)}
        {product.mechanism !== 'none' &&
          ` Times are for ${figure(airTempC)} °C, ${figure(relHumPct)} % humidity and ${figure(windMps)} m/s of wind; the clock carries them to the weather of the day.`}
      </p>
      <Cautions cautions={product.hazards} title="Where the hazard is" />
      <div class="number-columns">
        <Numbers numbers={numbers} choices={product.limitChoices ?? []} own={own} />
        <TimesTables tables={product.tables} />
        <Lines title="How it was worked out" lines={notes} />
        <Lines title="Using it well" lines={product.advice ?? []} />
        {product.touchDry !== null && <Learned productId={product.id} />}
      </div>
    </>
  );
}

/** The way on: change one's own, or start one's own from a class. */
function Next({ answer, id, from }: { answer: ProductAnswer; id: string; from: string | null }) {
  if (answer.own === null) {
    return (
      <p>
        <a class="step" href={`/products/new?from=${encodeURIComponent(id)}`}>
          Enter your own of this kind
        </a>
      </p>
    );
  }
  return (
    <>
      <p>
        Your own product, starting from{' '}
        <a href={`/product/${encodeURIComponent(answer.own.basedOn)}`}>
          {from ?? answer.own.basedOn}
        </a>
        .
      </p>
      <p>
        <a class="step" href={`/product/${encodeURIComponent(id)}/change`}>
          Change it
        </a>
      </p>
    </>
  );
}

export function ProductScreen() {
  const id = useRoute().params['id'] ?? '';
  const { data, problem, busy } = useHeld<ProductAnswer>(productPath(id));
  const all = useHeld<{ products: Product[] }>(PRODUCTS).data?.products ?? [];
  const product = data?.product ?? null;
  return (
    <Screen
      title={product?.name ?? data?.own?.name ?? 'Product'}
      above={
        <p class="trail">
          <a href="/products">All products</a>
        </p>
      }
    >
      {problem && <Trouble problem={problem} again={() => void fetchHeld(productPath(id))} />}
      {!data && busy && <Waiting words="Fetching the product …" />}
      {data && data.issues.length > 0 && (
        <Trouble
          problem={{
            code: 'unusable',
            message: 'Not usable until it is changed: its class has changed since it was saved.',
            issues: data.issues,
          }}
        />
      )}
      {data && (
        <Next
          answer={data}
          id={id}
          from={all.find((one) => one.id === data.own?.basedOn)?.name ?? null}
        />
      )}
      {data && product && <Sheet answer={{ ...data, product }} />}
    </Screen>
  );
}
