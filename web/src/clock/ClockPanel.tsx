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
import { ProductOptions } from './ProductOptions.tsx';
import { Section } from './Section.tsx';
import { WeatherChoice } from './WeatherChoice.tsx';

interface Props {
  readonly firm: Firm;
  readonly jobs: readonly JobRow[];
  readonly products: readonly Product[];
  /** From the link that led here, where one did. */
  readonly wanted: { readonly product: string; readonly job: string; readonly atMs: number | null };
}

type Outcome =
  | { readonly kind: 'none' | 'busy' }
  | {
      readonly kind: 'answer';
      readonly answer: ClockAnswer;
      readonly zone: string;
      readonly nowMs: number;
    }
  | { readonly kind: 'problem'; readonly problem: Problem };

/** The zone and the present moment where the coating is: demo jobs run on the demo's clock. */
function placeOf(form: ClockForm, { firm, jobs }: Props): { zone: string; nowMs: number } {
  const row = form.from === 'job' ? jobs.find(({ job }) => job.id === form.job) : undefined;
  if (row === undefined) return { zone: firm.timeZone, nowMs: firm.nowMs };
  const { demo, site } = row.job;
  return { zone: site.timeZone, nowMs: demo === firm.demo ? firm.nowMs : firm.presentMs };
}

function firstForm({ jobs, products, wanted }: Props): ClockForm {
  const job = (jobs.find((row) => row.job.id === wanted.job) ?? jobs[0])?.job;
  const { atMs } = wanted;
  const known = job !== undefined && atMs !== null;
  return {
    product: products.some(({ id }) => id === wanted.product) ? wanted.product : '',
    date: known ? localDate(atMs, job.site.timeZone) : null,
    time: known ? clockTime(atMs, job.site.timeZone) : null,
    until: '',
    faces: [],
    from: job ? 'job' : 'readings',
    job: job?.id ?? '',
    air: '',
    rh: '',
    wind: '',
    surface: '',
  };
}

export function ClockPanel(props: Props) {
  const { jobs, products } = props;
  const [form, setForm] = useState(() => firstForm(props));
  const [errors, setErrors] = useState<FieldErrors>({});
  const [outcome, setOutcome] = useState<Outcome>({ kind: 'none' });
  const element = useRef<HTMLFormElement>(null);
  const { zone, nowMs } = placeOf(form, props);
  const moment = {
    date: form.date ?? localDate(nowMs, zone),
    time: form.time ?? clockTime(nowMs, zone),
  };
  const product = products.find(({ id }) => id === form.product);
  const change = (part: Partial<ClockForm>) => setForm((before) => ({ ...before, ...part }));

  const show = (wrong: FieldErrors) => {
    setErrors(wrong);
    const first = Object.keys(wrong)[0];
    if (first) element.current?.querySelector<HTMLElement>(`#${first}`)?.focus();
  };

  const submit = async (event: Event) => {
    event.preventDefault();
    const checked = readForm(form, moment, zone);
    if (!checked.ok) {
      setOutcome({ kind: 'none' });
      show(checked.errors);
      return;
    }
    setErrors({});
    setOutcome({ kind: 'busy' });
    const reply = await ask<ClockAnswer>(clockPath(checked.query));
    if (reply.ok) {
      setOutcome({ kind: 'answer', answer: reply.data, zone, nowMs });
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
            onChange={(event) => change({ product: event.currentTarget.value, faces: [] })}
          >
            <option value="">Choose a product</option>
            <ProductOptions products={products} />
          </select>
        </Field>
        <CoatedAt
          moment={moment}
          errors={errors}
          today={localDate(nowMs, zone)}
          zone={zone}
          change={change}
        />
        <Section form={form} errors={errors} product={product} change={change} />
        <WeatherChoice form={form} errors={errors} jobs={jobs} change={change} />
        <button type="submit">Run the clock</button>
      </form>
      <div aria-live="polite">
        {outcome.kind === 'busy' && <Waiting words="Running the clock …" />}
        {outcome.kind === 'problem' && <Trouble problem={outcome.problem} />}
        {outcome.kind === 'answer' && (
          <ClockResult answer={outcome.answer} zone={outcome.zone} nowMs={outcome.nowMs} />
        )}
      </div>
    </div>
  );
}
