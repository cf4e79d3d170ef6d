import type { ClockFace } from '../../../src/contract/index.ts';
import type { Product } from '../../../src/products/index.ts';
import type { ClockForm, FieldErrors } from './clock-form.ts';
import { FACE_WORDS } from './clock-words.ts';
import { described, Field } from './Field.tsx';

interface Props {
  readonly form: ClockForm;
  readonly errors: FieldErrors;
  /** Undefined = none chosen yet. */
  readonly product: Product | undefined;
  readonly change: (part: Partial<ClockForm>) => void;
}

const FACES = Object.keys(FACE_WORDS) as ClockFace[];

/** How large it is in time, and which faces it lies on. */
export function Section({ form, errors, product, change }: Props) {
  const one = product?.faces === 1;
  const toggle = (face: ClockFace) => {
    if (form.faces.includes(face)) change({ faces: form.faces.filter((each) => each !== face) });
    else change({ faces: one ? [face] : [...form.faces, face] });
  };
  return (
    <>
      <Field
        id="until"
        label="Last square metre at"
        hint="If spreading took a while; else leave it empty"
        error={errors.until}
      >
        <input
          {...described('until', errors.until, true)}
          type="text"
          autocomplete="off"
          value={form.until}
          onInput={(event) => change({ until: event.currentTarget.value })}
        />
      </Field>
      <details open={errors.faces !== undefined}>
        <summary>
          Faces:{' '}
          {form.faces.length === 0
            ? 'the usual ones of the product'
            : form.faces.map((face) => FACE_WORDS[face]).join(', ')}
        </summary>
        <fieldset id="faces" tabIndex={-1} class={errors.faces ? 'field-wrong' : undefined}>
          <legend>Coated faces</legend>
          <p class="hint">
            {one
              ? 'This product is coated on one face.'
              : 'None ticked: the usual faces of the product.'}
          </p>
          {FACES.map((face) => (
            <label key={face} class="choice">
              <input
                type="checkbox"
                checked={form.faces.includes(face)}
                onChange={() => toggle(face)}
              />
              {FACE_WORDS[face]}
            </label>
          ))}
          {errors.faces && <p class="field-error">{errors.faces}</p>}
        </fieldset>
      </details>
    </>
  );
}
