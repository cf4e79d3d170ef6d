import { useRef, useState } from 'preact/hooks';
import type { ClockAnswer, Firm, JobRow } from '../../../src/contract/index.ts';
import type { Product } from '../../../src/products/index.ts';
import { ask, type Problem } from '../api/ask.ts';
import { clockPath } from '../api/paths.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { clockTime, localDate } from '../time/site-time.ts';
import { ClockResult } from './ClockResult.tsx';
import { CoatedAt } from './CoatedAt.tsx';
import { type ClockForm, errorsByField, type FieldErrors, readForm } from './clock-form.ts';
import { described, Field } from './Field.tsx';
import { WeatherChoice } from './WeatherChoice.tsx';

interface Props {
  readonly firm: Firm;
  readonly jobs: readonly JobRow[];
  readonly products: readonly Pick<Product, 'id' | 'name'>[];
  /** From the link that led here, where one did. */
  readonly wanted: { readonly product: string; readonly job: string; readonly atMs: number | null };
}

type Outcome =
  | { readonly kind: 'none' | 'busy' }
  | { readonly kind: 'answer'; readonly answer: ClockAnswer; readonly zone: string }
  | { readonly kind: 'problem'; readonly problem: Problem };

function zoneOf(form: ClockForm, jobs: readonly JobRow[], firm: Firm): string {
  const job = form.from === 'job' ? jobs.find((row) => row.job.id === form.job) : undefined;
  return job?.job.site.timeZone ?? firm.timeZone;
}

function firstForm({ firm, jobs, wanted }: Props): ClockForm {
  const job = jobs.find((row) => row.job.id === wanted.job)?.job ?? jobs[0]?.job;
  const zone = job?.site.timeZone ?? firm.timeZone;
  const atMs = wanted.atMs ?? firm.nowMs;
  return {
    product: wanted.product,
    date: localDate(atMs, zone),
    time: clockTime(atMs, zone),
    from: job ? 'job' : 'readings',
    job: job?.id ?? '',
    air: '',
    rh: '',
    wind: '',
    surface: '',
  };
}

export function ClockPanel(props: Props) {
  const { firm, jobs, products } = props;
  const [form, setForm] = useState(() => firstForm(props));
  const [errors, setErrors] = useState<FieldErrors>({});
  const [outcome, setOutcome] = useState<Outcome>({ kind: 'none' });
  const element = useRef<HTMLFormElement>(null);
  const zone = zoneOf(form, jobs, firm);
  const change = (part: Partial<ClockForm>) => setForm((before) => ({ ...before, ...part }));

  const show = (wrong: FieldErrors) => {
    setErrors(wrong);
    const first = Object.keys(wrong)[0];
    if (first) element.current?.querySelector<HTMLElement>(`#${first}`)?.focus();
  };

  const submit = async (event: Event) => {
    event.preventDefault();
    const checked = readForm(form, zone);
    if (!checked.ok) {
      setOutcome({ kind: 'none' });
      show(checked.errors);
      return;
    }
    setErrors({});
    setOutcome({ kind: 'busy' });
    const reply = await ask<ClockAnswer>(clockPath(checked.query));
    if (reply.ok) {
      setOutcome({ kind: 'answer', answer: reply.data, zone });
      return;
    }
    const { fields, rest } = errorsByField(reply.problem);
    setOutcome(rest ? { kind: 'problem', problem: rest } : { kind: 'none' });
    show(fields);
  };

  return (
    <div class="clock-columns">
      <form ref={element} class="clock-form" noValidate onSubmit={submit}>
        <Field id="product" label="Product" error={errors.product}>
          <select
            {...described('product', errors.product)}
            value={form.product}
            onChange={(event) => change({ product: event.currentTarget.value })}
          >
            <option value="">Choose a product</option>
            {products.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </Field>
        <CoatedAt
          form={form}
          errors={errors}
          today={localDate(firm.nowMs, zone)}
          zone={zone}
          change={change}
        />
        <WeatherChoice form={form} errors={errors} jobs={jobs} change={change} />
        <button type="submit">Run the clock</button>
      </form>
      <div aria-live="polite">
        {outcome.kind === 'busy' && <Waiting words="Running the clock …" />}
        {outcome.kind === 'problem' && <Trouble problem={outcome.problem} />}
        {outcome.kind === 'answer' && (
          <ClockResult answer={outcome.answer} zone={outcome.zone} nowMs={firm.nowMs} />
        )}
      </div>
    </div>
  );
}
