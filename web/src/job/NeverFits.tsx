import type { DaysAnswer } from '../../../src/contract/index.ts';

/** Why no day of the forecast can do, and the nearest change that was tried and does. */
export function NeverFits({ found }: { readonly found: DaysAnswer['neverFits'] }) {
  if (found === null) return null;
  return (
    <section class="never-fits" aria-labelledby="never-fits">
      <h2 id="never-fits">It fits no day of this forecast</h2>
      <p>{found.words}</p>
      <p>{found.change}</p>
    </section>
  );
}
