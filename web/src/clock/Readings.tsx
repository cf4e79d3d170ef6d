import type { ClockForm, FieldErrors } from './clock-form.ts';
import { READINGS } from './clock-form.ts';
import { described, Field } from './Field.tsx';

interface Props {
  readonly form: ClockForm;
  readonly errors: FieldErrors;
  readonly change: (part: Partial<ClockForm>) => void;
}

export function Readings({ form, errors, change }: Props) {
  return (
    <div class="readings">
      {READINGS.map(({ name, label, unit }) => (
        <Field key={name} id={name} label={`${label}, ${unit}`} error={errors[name]}>
          <input
            {...described(name, errors[name])}
            type="text"
            inputMode={name === 'air' || name === 'surface' ? 'text' : 'decimal'}
            autocomplete="off"
            value={form[name]}
            onInput={(event) => change({ [name]: event.currentTarget.value })}
          />
        </Field>
      ))}
    </div>
  );
}
