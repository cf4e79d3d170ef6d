import type { ComponentChildren } from 'preact';

interface Props {
  readonly id: string;
  readonly label: string;
  readonly hint?: string;
  readonly error: string | undefined;
  readonly children: ComponentChildren;
}

/** A labelled field with what is wrong with it right beside it. */
export function Field({ id, label, hint, error, children }: Props) {
  return (
    <div class={error ? 'field field-wrong' : 'field'}>
      <label for={id}>{label}</label>
      {hint && (
        <p class="hint" id={`${id}-hint`}>
          {hint}
        </p>
      )}
      {children}
      {error && (
        <p class="field-error" id={`${id}-error`}>
          {error}
        </p>
      )}
    </div>
  );
}

/** What a field's own control needs so that its hint and error are read out with it. */
export function described(id: string, error: string | undefined, hint = false) {
  const ids = [hint ? `${id}-hint` : '', error ? `${id}-error` : ''].filter((part) => part !== '');
  return {
    id,
    name: id,
    'aria-invalid': error ? ('true' as const) : undefined,
    'aria-describedby': ids.length > 0 ? ids.join(' ') : undefined,
  };
}
