import type { DaysAnswer } from '../../../src/contract/index.ts';
import { money, percent } from '../words/figures.ts';

interface Props {
  readonly costs: DaysAnswer['costs'];
  readonly threshold: number;
}

/** The firm's own money, shown so that the foreman can argue with it. */
export function CostTable({ costs, threshold }: Props) {
  const rows = [
    ['Standing the crew down', costs.standDown],
    ['A shortened day', costs.shortened],
    ['Caught open', costs.caughtOpen],
    ['Each day of waiting', costs.waitPerDay],
  ] as const;
  return (
    <section class="costs">
      <h2>Costs behind the verdict</h2>
      <table>
        <caption>Your firm’s own figures for this job</caption>
        <tbody>
          {rows.map(([words, value]) => (
            <tr key={words}>
              <th scope="row">{words}</th>
              <td>{money(value, costs.currency)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>
        On these costs it pays to stand down once the chance of being caught open passes{' '}
        <strong>{percent(threshold)}</strong>. Safety limits are never weighed against money.
      </p>
    </section>
  );
}
