import { useLocation } from 'preact-iso';
import type { Firm, JobRow } from '../../../src/contract/index.ts';
import type { Product } from '../../../src/products/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { FIRM, JOBS, PRODUCTS } from '../api/paths.ts';
import { ClockPanel } from '../clock/ClockPanel.tsx';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';

/** Tape, mastic and sheets have no time to wait for. */
const hasTimes = (product: Product): boolean =>
  [
    product.touchDry,
    product.openUntil,
    product.rainAfter,
    product.footTraffic,
    product.fullCure,
  ].some((time) => time !== null);

export function ClockScreen() {
  const firm = useHeld<Firm>(FIRM);
  const jobs = useHeld<{ jobs: JobRow[] }>(JOBS);
  const products = useHeld<{ products: Product[] }>(PRODUCTS);
  const { query } = useLocation();
  const atMs = Number(query['at'] ?? Number.NaN);
  const problem = firm.problem ?? jobs.problem ?? products.problem;
  const again = () => {
    for (const path of [FIRM, JOBS, PRODUCTS]) void fetchHeld(path);
  };
  return (
    <Screen title="Clock: touch dry and usable until">
      {problem && <Trouble problem={problem} again={again} />}
      {firm.data && jobs.data && products.data ? (
        <ClockPanel
          firm={firm.data}
          jobs={jobs.data.jobs}
          products={products.data.products.filter(hasTimes)}
          wanted={{
            product: query['product'] ?? '',
            job: query['job'] ?? '',
            atMs: Number.isSafeInteger(atMs) ? atMs : null,
          }}
        />
      ) : (
        !problem && <Waiting words="Fetching products and jobs …" />
      )}
    </Screen>
  );
}
