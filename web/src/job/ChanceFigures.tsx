import type { DayOption } from '../../../src/contract/index.ts';
import { ChanceStrip } from '../parts/ChanceStrip.tsx';
import { forecastsWords, percent } from '../words/figures.ts';
import { caughtWords } from './Glance.tsx';

function Outcomes({ day, of }: { day: DayOption; of: number }) {
  const { outcomes } = day;
  const rows = [
    ['finished', outcomes.finished],
    ['shortened but sealed', outcomes.shortened],
    ['stood down before opening', outcomes.stoodDown],
    ['caught open', outcomes.caughtOpen],
    ['forecast ends before the work does', outcomes.unknown],
  ] as const;
  return (
    <ul class="outcomes">
      {rows
        .filter(([words, count]) => count > 0 || words !== rows[4][0])
        .map(([words, count]) => (
          <li key={words}>
            <span class="count">{count}</span> of {of} {words}
          </li>
        ))}
    </ul>
  );
}

/** The headline chance, being caught open beside it, and the count one tap below. */
export function ChanceFigures({ day }: { day: DayOption }) {
  const { chance, tooEarly } = day;
  if (chance === null) return <p class="chance-none">No chance is given for this day.</p>;
  return (
    <div class="chance">
      <p class="chance-head">
        <strong>{chance.words}</strong>
        {chance.tenths !== null && <ChanceStrip tenths={chance.tenths} />}
        <span class="chance-caught">{caughtWords(day)}</span>
      </p>
      {tooEarly !== null && (
        <p>
          With the hours the rain falls in, the chance moves from {percent(tooEarly.low)} to{' '}
          {percent(tooEarly.high)}: too early to call.
        </p>
      )}
      <details>
        <summary>How often, by forecast</summary>
        <p>
          The day’s work finishes in {chance.count} of {forecastsWords(chance.of, chance.made)}.
          {chance.adjusted !== null &&
            ` After taking off for the count, the lead time and the choice of the best start: ${percent(chance.adjusted)}.`}
        </p>
        <Outcomes day={day} of={chance.of} />
      </details>
      <p class="unchecked">{chance.checked}</p>
    </div>
  );
}
