import { useEffect, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { DaysAnswer } from '../../../src/contract/index.ts';
import { money } from '../../../src/units/index.ts';
import type { Problem } from '../api/ask.ts';
import { described, Field } from '../clock/Field.tsx';
import { dateLong } from '../time/site-time.ts';
import {
  addressOf,
  COST_FIELDS,
  COST_LABELS,
  costErrorsIn,
  readCosts,
  type Typed,
} from './tried.ts';
import { bestFirst } from './use-order.ts';

interface Props {
  readonly answer: DaysAnswer;
  readonly problem: Problem | null;
  /** The page's address without figures tried, and what else stands in it. */
  readonly path: string;
  readonly keep: Readonly<Record<string, string>>;
  /** The page's address holds no other figures. */
  readonly triesNothing: boolean;
}

const typedFrom = (costs: DaysAnswer['costs']): Typed =>
  Object.fromEntries(COST_FIELDS.map((name) => [name, String(costs[name])])) as Typed;

/** The firm's own money, to argue with: other figures are tried at once and never saved. */
export function CostForm({ answer, problem, path, keep, triesNothing }: Props) {
  const { costs, ownCosts } = answer;
  const { route } = useLocation();
  const [typed, setTyped] = useState<Typed>(() => typedFrom(costs));
  const read = readCosts(typed, ownCosts);
  const [asked, setAsked] = useState(false);
  // The fields show what counted: where the job states none, calling off early follows the aborted day.
  const counted = JSON.stringify(costs);
  useEffect(() => setTyped(typedFrom(triesNothing ? ownCosts : costs)), [counted, triesNothing]);
  const errors = { ...costErrorsIn(problem), ...(asked && !read.ok ? read.errors : {}) };
  const trying = COST_FIELDS.some((name) => answer.tried[name] !== undefined);
  return (
    <section class="costs" aria-labelledby="costs-title">
      <h2 id="costs-title">What it costs</h2>
      <p>
        The job’s own figures decide when standing down pays. Try others: nothing is saved. Safety
        limits are never weighed against money.
      </p>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(true);
          if (read.ok) route(addressOf(path, { ...keep, ...read.tried }), true);
        }}
      >
        <div class="cost-fields">
          {COST_FIELDS.map((name) => (
            <Field
              key={name}
              id={`cost-${name}`}
              label={`${COST_LABELS[name]}, ${costs.currency}`}
              error={errors[name]}
            >
              <input
                {...described(`cost-${name}`, errors[name])}
                type="text"
                inputMode="decimal"
                autocomplete="off"
                value={typed[name]}
                onInput={(event) => setTyped({ ...typed, [name]: event.currentTarget.value })}
              />
            </Field>
          ))}
        </div>
        <p class="cost-steps">
          <button type="submit">Work it out with these</button>
          {trying && (
            <button
              type="button"
              class="plain"
              onClick={() => {
                setAsked(false);
                route(addressOf(path, keep), true);
              }}
            >
              Back to the job’s own
            </button>
          )}
        </p>
      </form>
      <div aria-live="polite">{trying && <TriedEffect answer={answer} />}</div>
    </section>
  );
}

/** What the figures tried come to, in sight of where they were typed. */
function TriedEffect({ answer }: { answer: DaysAnswer }) {
  const best = bestFirst(answer.days)[0];
  return (
    <p class="tried-effect">
      <strong>Tried, not saved.</strong>{' '}
      {best === undefined || best.chance === null
        ? 'No day can be judged.'
        : `First choice with these: ${dateLong(best.date)}, ${best.chance.words}, expected to cost ${money(best.expectedCost ?? 0, answer.costs.currency)}.`}
    </p>
  );
}
