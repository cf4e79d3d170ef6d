import { described } from '../clock/Field.tsx';
import { unitWords } from '../words/figures.ts';
import type { FormRow } from './form-rows.ts';
import type { TypedRow } from './own-form.ts';

interface Props {
  readonly row: FormRow;
  readonly typed: TypedRow | undefined;
  /** What the class says, to be told apart from what the sheet does. */
  readonly classWords: string;
  readonly error: string | undefined;
  readonly change: (typed: TypedRow) => void;
}

/** One figure as the data sheet prints it: the number or range, and its unit. */
export function FigureRow({ row, typed, classWords, error, change }: Props) {
  const { field, label, units, most } = row;
  const id = field.replaceAll('.', '-');
  const now = typed ?? { text: '', unit: units[0] ?? '' };
  // A unit that was kept in another spelling stays on offer.
  const offered = units.includes(now.unit) ? units : [...units, now.unit];
  return (
    <div class={error ? 'figure-row field-wrong' : 'figure-row'}>
      <label for={id}>{label}</label>
      <p class="hint" id={`${id}-hint`}>
        {classWords}
      </p>
      <div class="figure-inputs">
        <input
          {...described(id, error, true)}
          type="text"
          inputMode={most === 1 ? 'decimal' : 'text'}
          autocomplete="off"
          value={now.text}
          onInput={(event) => change({ ...now, text: event.currentTarget.value })}
        />
        {offered.length === 1 ? (
          <span class="only-unit">{unitWords(now.unit)}</span>
        ) : (
          <select
            aria-label={`Unit: ${label}`}
            value={now.unit}
            onChange={(event) => change({ ...now, unit: event.currentTarget.value })}
          >
            {offered.map((unit) => (
              <option key={unit} value={unit}>
                {unitWords(unit)}
              </option>
            ))}
          </select>
        )}
      </div>
      {error && (
        <p class="field-error" id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}
