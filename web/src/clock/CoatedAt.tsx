import { addDays, dateLong } from '../time/site-time.ts';
import type { ClockForm, FieldErrors, CoatedAt as Moment } from './clock-form.ts';
import { described, Field } from './Field.tsx';

interface Props {
  readonly moment: Moment;
  readonly errors: FieldErrors;
  readonly today: string;
  readonly zone: string;
  readonly change: (part: Partial<ClockForm>) => void;
}

/** Late entries reach back a few days; plans reach as far as a forecast does. */
const DAYS_BACK = 3;
const DAYS_AHEAD = 15;

const NEAR: Readonly<Record<number, string>> = { [-1]: 'Yesterday', 0: 'Today', 1: 'Tomorrow' };

export function CoatedAt({ moment, errors, today, zone, change }: Props) {
  const offered = Array.from({ length: DAYS_BACK + DAYS_AHEAD + 1 }, (_, i) => i - DAYS_BACK).map(
    (offset) => ({ date: addDays(today, offset), near: NEAR[offset] }),
  );
  if (!offered.some(({ date }) => date === moment.date)) {
    offered.unshift({ date: moment.date, near: undefined });
  }
  return (
    <div class="coated">
      <Field id="date" label="Coated on" error={undefined}>
        <select
          {...described('date', undefined)}
          value={moment.date}
          onChange={(event) => change({ date: event.currentTarget.value })}
        >
          {offered.map(({ date, near }) => (
            <option key={date} value={date}>
              {near ? `${near}, ${dateLong(date)}` : dateLong(date)}
            </option>
          ))}
        </select>
      </Field>
      <Field
        id="coated"
        label="Coated at"
        hint={`24-hour time at the site (${zone}), such as 09:40`}
        error={errors.coated}
      >
        <input
          {...described('coated', errors.coated, true)}
          type="text"
          inputMode="text"
          autocomplete="off"
          value={moment.time}
          onInput={(event) => change({ time: event.currentTarget.value })}
        />
      </Field>
    </div>
  );
}
