import { useRef, useState } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { ProductAnswer, ProductRow } from '../../../src/contract/index.ts';
import type { NumberSource, Product } from '../../../src/products/index.ts';
import { ask, type Problem } from '../api/ask.ts';
import { held } from '../api/held.ts';
import { productPath } from '../api/paths.ts';
import { described, Field } from '../clock/Field.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { FigureRow } from './FigureRow.tsx';
import { rowsFor } from './form-rows.ts';
import {
  emptyForm,
  errorsByField,
  formOf,
  idFrom,
  type OwnErrors,
  type OwnForm,
  readForm,
} from './own-form.ts';
import { TakeLooser } from './TakeLooser.tsx';
import { useClassWords } from './use-class-words.ts';

interface Props {
  readonly classes: readonly Product[];
  /** The class to start from where the product is new. */
  readonly from: string;
  /** A kept product of the firm's own that is being changed. */
  readonly kept: ProductAnswer | null;
}

const SOURCES: readonly (readonly [NumberSource, string])[] = [
  ['data sheet', 'the product’s data sheet'],
  ['user', 'our own entry'],
  ['common practice', 'common practice'],
  ['from memory', 'from memory'],
];

/** A product of the firm's own: a class, and what its data sheet prints instead. */
export function OwnProductForm({ classes, from, kept }: Props) {
  const own = kept?.own ?? null;
  const [form, setForm] = useState<OwnForm>(() => {
    const klass = classes.find(({ id }) => id === (own?.basedOn ?? from)) ?? classes[0];
    if (own === null || klass === undefined) return emptyForm(klass?.id ?? '');
    return formOf(
      own,
      rowsFor(klass).flatMap(({ rows }) => rows),
    );
  });
  const [version, setVersion] = useState(kept?.version ?? null);
  const [errors, setErrors] = useState<OwnErrors>({});
  const [problem, setProblem] = useState<Problem | null>(null);
  const [busy, setBusy] = useState(false);
  const [idTyped, setIdTyped] = useState(own !== null);
  const request = useRef({ id: '', for: '' });
  const element = useRef<HTMLFormElement>(null);
  const { route } = useLocation();
  const klass = classes.find(({ id }) => id === form.basedOn);
  const groups = klass === undefined ? [] : rowsFor(klass);
  const rows = groups.flatMap((group) => group.rows);
  const classWords = useClassWords(form.basedOn);
  const change = (part: Partial<OwnForm>) => setForm((before) => ({ ...before, ...part }));

  const show = (wrong: OwnErrors) => {
    setErrors(wrong);
    const order = ['name', 'id', 'basedOn', ...rows.map(({ field }) => field)];
    const first = order.find((field) => wrong[field]);
    if (first) element.current?.querySelector<HTMLElement>(`#${idOf(first)}`)?.focus();
  };

  const submit = async (event: Event) => {
    event.preventDefault();
    const read = readForm(form, rows, own);
    setProblem(null);
    if (!read.ok) return show(read.errors);
    const id = form.id.trim();
    const content = JSON.stringify([version, read.product]);
    // The same content sent again, after a lost line say, is the same request.
    if (request.current.for !== content) {
      request.current = { id: crypto.randomUUID(), for: content };
    }
    setBusy(true);
    const reply = await ask<ProductAnswer>(productPath(id), {
      method: 'PUT',
      body: { requestId: request.current.id, version, product: read.product },
    });
    setBusy(false);
    if (reply.ok) {
      held<ProductAnswer>(productPath(id)).value = { data: reply.data, problem: null, busy: false };
      route(`/product/${encodeURIComponent(id)}`);
      return;
    }
    const { errors: placed, rest } = errorsByField(reply.problem, rows);
    setProblem(rest);
    show(placed);
  };

  const current =
    problem?.code === 'version-conflict' ? (problem.current as ProductRow | undefined) : undefined;
  return (
    <form ref={element} class="own-form" noValidate onSubmit={submit}>
      <Field id="basedOn" label="Starts from" error={errors['basedOn']}>
        <select
          {...described('basedOn', errors['basedOn'])}
          value={form.basedOn}
          onChange={(event) => change({ basedOn: event.currentTarget.value })}
        >
          {classes.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </Field>
      <Field id="name" label="Name, as on the tin" error={errors['name']}>
        <input
          {...described('name', errors['name'])}
          type="text"
          autocomplete="off"
          value={form.name}
          onInput={(event) => {
            const name = event.currentTarget.value;
            change(idTyped ? { name } : { name, id: idFrom(name) });
          }}
        />
      </Field>
      <Field
        id="id"
        label="Id"
        hint={own ? 'It stays: jobs know the product by it.' : 'What jobs know it by.'}
        error={errors['id']}
      >
        <input
          {...described('id', errors['id'], true)}
          type="text"
          autocomplete="off"
          autocapitalize="none"
          spellcheck={false}
          readOnly={own !== null}
          value={form.id}
          onInput={(event) => {
            setIdTyped(true);
            change({ id: event.currentTarget.value });
          }}
        />
      </Field>
      <Field id="source" label="Figures typed here are from" error={undefined}>
        <select
          {...described('source', undefined)}
          value={form.source}
          onChange={(event) => change({ source: event.currentTarget.value as NumberSource })}
        >
          {SOURCES.map(([source, words]) => (
            <option key={source} value={source}>
              {words}
            </option>
          ))}
        </select>
      </Field>
      <p>
        Type only what is printed, in the sheet’s own units; an empty line leaves the class’s
        figure. A range is typed as 10 to 20.
      </p>
      {groups.map((group) => (
        <fieldset key={group.title} class="figure-rows">
          <legend>{group.title}</legend>
          {group.rows.map((row) => (
            <FigureRow
              key={row.field}
              row={row}
              typed={form.rows[row.field]}
              classWords={classWords(row.field)}
              error={errors[row.field]}
              change={(typed) => change({ rows: { ...form.rows, [row.field]: typed } })}
            />
          ))}
        </fieldset>
      ))}
      <TakeLooser form={form} change={change} />
      <p class="hint">
        Tables of times, figures for single substrates and further cautions are entered from a file;
        what a kept product has of them stays.
      </p>
      <div aria-live="polite">
        {Object.keys(errors).length > 0 && (
          <p class="field-error">Not saved: see what is marked above. Nothing typed is lost.</p>
        )}
        {problem && <Trouble problem={problem} />}
        {current && (
          <button
            type="button"
            class="plain"
            onClick={() => {
              setVersion(current.version);
              setProblem(null);
            }}
          >
            Put mine over the product as it is now
          </button>
        )}
        {busy && <Waiting words="Saving …" />}
      </div>
      <button type="submit" disabled={busy}>
        Save the product
      </button>
    </form>
  );
}

const idOf = (field: string): string => field.replaceAll('.', '-');
