import type { JobRow } from '../../../src/contract/index.ts';
import type { ClockForm, FieldErrors } from './clock-form.ts';
import { described, Field } from './Field.tsx';
import { Readings } from './Readings.tsx';

interface Props {
  readonly form: ClockForm;
  readonly errors: FieldErrors;
  readonly jobs: readonly JobRow[];
  readonly change: (part: Partial<ClockForm>) => void;
}

const CHOICES = [
  ['job', 'The forecast of a job'],
  ['readings', 'Readings taken here'],
] as const;

/** Either a job's forecast or what the foreman has just measured. */
export function WeatherChoice({ form, errors, jobs, change }: Props) {
  return (
    <fieldset>
      <legend>Weather to dry in</legend>
      <div class="choices">
        {CHOICES.map(([from, words]) => (
          <label key={from} class="choice">
            <input
              type="radio"
              name="from"
              value={from}
              checked={form.from === from}
              onChange={() => change({ from })}
            />
            {words}
          </label>
        ))}
      </div>
      {form.from === 'job' ? (
        <Field id="job" label="Job" error={errors.job}>
          <select
            {...described('job', errors.job)}
            value={form.job}
            onChange={(event) => change({ job: event.currentTarget.value })}
          >
            <option value="">Choose a job</option>
            {jobs.map(({ job }) => (
              <option key={job.id} value={job.id}>
                {job.name}
              </option>
            ))}
          </select>
        </Field>
      ) : (
        <Readings form={form} errors={errors} change={change} />
      )}
    </fieldset>
  );
}
