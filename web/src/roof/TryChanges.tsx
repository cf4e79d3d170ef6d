import { useEffect, useRef } from 'preact/hooks';
import type { JobRow, TakeoffAnswer } from '../../../src/contract/index.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { effectRows } from './effect.ts';
import { NumberField } from './NumberField.tsx';
import { ProductPicks } from './ProductPicks.tsx';
import { RatePick } from './RatePick.tsx';
import type { WhatIf } from './use-what-if.ts';
import { areasOf, BAY_FIELD, shiftField, turnField } from './what-if.ts';

interface Props {
  readonly row: JobRow;
  readonly kept: TakeoffAnswer;
  readonly whatIf: WhatIf;
}

/** What may be turned, shifted, swapped or sized, and what that does, before anything is kept. */
export function TryChanges({ row, kept, whatIf }: Props) {
  const { draft, change, errors, rates, tried } = whatIf;
  return (
    <section class="try-changes" aria-labelledby="try-title">
      <h2 id="try-title">Try a change</h2>
      <p>
        Nothing is kept until you say so; everything on this page follows what is tried.
        {row.job.demo && ' This is a demo job: changes can be tried, not kept.'}
      </p>
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          whatIf.keep();
        }}
      >
        {areasOf(row.job).map(({ id, name }) => {
          const area = draft.areas[id] ?? { turn: '', shift: '' };
          const set = (part: Partial<typeof area>) =>
            change({ areas: { ...draft.areas, [id]: { ...area, ...part } } });
          return (
            <fieldset key={id} class="pair">
              <legend>{name === '' ? 'How the sheets lie' : `How the sheets lie: ${name}`}</legend>
              <NumberField
                field={turnField(id)}
                label="Turn rolls, degrees"
                hint="0 = up the drawing, 90 = to the right. Empty: the best found."
                error={errors[turnField(id)]}
                value={area.turn}
                change={(turn) => set({ turn })}
              />
              <NumberField
                field={shiftField(id)}
                label="Shift first course, m"
                hint="Cut that much narrower; all others move. Empty: as found."
                error={errors[shiftField(id)]}
                value={area.shift}
                change={(shift) => set({ shift })}
              />
            </fieldset>
          );
        })}
        <h3>Products</h3>
        <ProductPicks
          choices={(tried ?? kept).choices}
          picked={draft.products}
          errors={errors}
          pick={(role, id) => change({ products: { ...draft.products, [role]: id } })}
        />
        <h3>Labour and bays</h3>
        <RatePick
          rates={rates}
          typed={draft.rates}
          errors={errors}
          change={(next) => change({ rates: next })}
        />
        <NumberField
          field={BAY_FIELD}
          label="Largest bay, m²"
          hint="The most to be laid in one day. Empty: as large as the crew and the day allow."
          error={errors[BAY_FIELD]}
          value={draft.bay}
          change={(bay) => change({ bay })}
        />
        <Effect kept={kept} whatIf={whatIf} />
      </form>
    </section>
  );
}

function Effect({ kept, whatIf }: Omit<Props, 'row'>) {
  const { tried, busy, problem, changed, saving, undo, takeCurrent } = whatIf;
  const wrong = Object.keys(whatIf.errors).length;
  const panel = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const at = document.activeElement;
    const top = panel.current?.getBoundingClientRect().top;
    if (top === undefined || !at?.closest('.try-changes') || panel.current?.contains(at)) return;
    if (at.getBoundingClientRect().bottom > top) at.scrollIntoView({ block: 'center' });
  }, [tried, problem, wrong]);
  return (
    <div ref={panel} class="effect" aria-live="polite">
      {problem && <Trouble problem={problem} />}
      {wrong > 0 && (
        <p>
          <strong>Not reckoned:</strong> see {wrong === 1 ? 'the field' : `the ${wrong} fields`}{' '}
          marked above.
        </p>
      )}
      {busy && <Waiting words="Working out what that does …" />}
      {saving === 'kept' && !changed && (
        <p class="kept-now">
          <strong>Kept.</strong> The job now has these changes.
        </p>
      )}
      {tried && (
        <>
          <EffectTable kept={kept} tried={tried} />
          <p class="effect-steps">
            <button type="submit" disabled={saving === 'busy' || busy}>
              Keep these changes
            </button>
            <button type="button" class="plain" onClick={undo}>
              Undo
            </button>
          </p>
        </>
      )}
      {takeCurrent && (
        <button type="button" onClick={takeCurrent}>
          Go on from the job as it is now
        </button>
      )}
      {changed && !tried && !busy && (
        <button type="button" class="plain" onClick={undo}>
          Undo
        </button>
      )}
    </div>
  );
}

function EffectTable({ kept, tried }: { kept: TakeoffAnswer; tried: TakeoffAnswer }) {
  const rows = effectRows(kept, tried);
  const same = rows.every(({ difference }) => difference === 'same');
  return (
    <table class="effect-table">
      <caption>{same ? 'Kept → tried: none of these changes' : 'Kept → tried'}</caption>
      <tbody>
        {rows.map(({ words, before, after, difference }) => (
          <tr key={words} class={difference === 'same' ? 'same' : undefined}>
            <th scope="row">{words}</th>
            <td>
              {before} → {after}
            </td>
            <td>{difference}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
