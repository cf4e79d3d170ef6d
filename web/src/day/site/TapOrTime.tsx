import { useState } from 'preact/hooks';
import { readWallTime, wallToMs } from '../../time/wall-time.ts';
import type { Moments } from './use-roof-desk.ts';

interface Props {
  readonly id: string;
  /** 'Touch dry': the button says 'Touch dry now', the field 'or at'. */
  readonly words: string;
  /** Of which part, for those who hear the page. */
  readonly of: string;
  readonly moments: Moments;
  /** Time the field starts with. */
  readonly suggest?: string;
  readonly log: (ms: number) => void;
}

/** One tap for now, or a time typed. */
export function TapOrTime({ id, words, of, moments, suggest = '', log }: Props) {
  const [typed, setTyped] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const text = typed ?? suggest;
  const today = moments.at() !== null;
  const take = (ms: number) => {
    const wrong = moments.check(ms);
    setError(wrong);
    if (wrong !== null) return;
    setTyped(null);
    log(ms);
  };
  const submit = (event: Event) => {
    event.preventDefault();
    const time = readWallTime(text);
    const ms = time === null ? null : wallToMs(moments.date, time, moments.zone);
    if (time === null) setError(`“${text}” is no time; a 24-hour time such as 10:40 is accepted.`);
    else if (ms === null) setError(`${time} does not exist on that day at the site.`);
    else take(ms);
  };
  return (
    <div class="tap">
      {today && (
        <button
          type="button"
          aria-label={`${words} now: ${of}`}
          onClick={() => {
            const ms = moments.at();
            if (ms !== null) take(Math.round(ms));
          }}
        >
          {words} now
        </button>
      )}
      <form class="tap-time" noValidate onSubmit={submit}>
        <label for={id}>{today ? 'or at' : `${words} at`}</label>
        <input
          id={id}
          type="text"
          inputMode="text"
          autocomplete="off"
          placeholder="10:40"
          value={text}
          aria-invalid={error === null ? undefined : 'true'}
          aria-describedby={error === null ? undefined : `${id}-error`}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        <button type="submit" class="second" aria-label={`Log ${words.toLowerCase()}: ${of}`}>
          Log
        </button>
      </form>
      {error !== null && (
        <p class="field-error" id={`${id}-error`} role="alert">
          {error}
        </p>
      )}
    </div>
  );
}
