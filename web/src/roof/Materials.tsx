import type { TakeoffAnswer } from '../../../src/contract/index.ts';
import { figure, unitWords } from '../words/figures.ts';
import { coverageWords } from './words.ts';

const tens = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 2 });

/** 'tube' and 'tubes', but 'L' whatever the number. */
const counted = (unit: string, count: number): string =>
  /^[a-z]{3,}$/.test(unit) && count !== 1 ? `${unit}s` : unitWords(unit);

/** Containers that are counted one by one need no size. */
function orderWords(line: TakeoffAnswer['materials'][number]): string {
  const { container, containers, unit } = line;
  if (container === 1) return `${containers} ${counted(unit, containers)}`;
  return `${containers} × ${figure(container)} ${unitWords(unit)}`;
}

/** What to order, with losses, in whole containers, and on whose word it covers what it does. */
export function Materials({ materials }: { materials: TakeoffAnswer['materials'] }) {
  return (
    <section aria-labelledby="materials-title">
      <h2 id="materials-title">Materials</h2>
      <ul class="materials">
        {materials.map((line) => (
          <li key={line.id}>
            <h3>
              <a href={`/product/${encodeURIComponent(line.id)}`}>{line.name}</a>
            </h3>
            <p>
              <strong>{orderWords(line)}</strong>
              <br />
              {tens.format(line.net)} {counted(line.unit, line.net)} needed
              {line.lossPct > 0 &&
                `, ${tens.format(line.withLoss)} with ${figure(line.lossPct)} % lost`}
              ; {coverageWords(line.coverage)} ({line.coverage.source})
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
