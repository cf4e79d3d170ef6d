import { limitsTyped, type OwnForm } from './own-form.ts';

/** The stricter of class and sheet counts, unless the firm says otherwise limit by limit. */
export function TakeLooser(props: { form: OwnForm; change: (part: Partial<OwnForm>) => void }) {
  const { form, change } = props;
  const typed = limitsTyped(form);
  if (typed.length === 0) return null;
  return (
    <fieldset>
      <legend>Where the sheet is looser than the class</legend>
      <p>The stricter figure counts and both are shown. Tick a limit to take the sheet’s anyway.</p>
      {typed.map(({ field, label }) => {
        const key = field.replace('limits.', '');
        const on = form.takes.includes(key);
        return (
          <label key={key} class="choice">
            <input
              type="checkbox"
              checked={on}
              onChange={() =>
                change({
                  takes: on ? form.takes.filter((one) => one !== key) : [...form.takes, key],
                })
              }
            />
            {label}: take the sheet’s
          </label>
        );
      })}
    </fieldset>
  );
}
