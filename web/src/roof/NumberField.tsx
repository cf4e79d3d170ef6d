import { described, Field } from '../clock/Field.tsx';

interface Props {
  /** The field of the job; also its id on the page. */
  readonly field: string;
  readonly label: string;
  readonly hint: string;
  readonly error: string | undefined;
  readonly value: string;
  readonly change: (value: string) => void;
}

/** A number to be typed, with its hint and what is wrong with it. */
export function NumberField({ field, label, hint, error, value, change }: Props) {
  const id = field.replaceAll('.', '-');
  return (
    <Field id={id} label={label} hint={hint} error={error}>
      <input
        {...described(id, error, true)}
        type="text"
        inputMode="decimal"
        autocomplete="off"
        value={value}
        onInput={(event) => change(event.currentTarget.value)}
      />
    </Field>
  );
}
