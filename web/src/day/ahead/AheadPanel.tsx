import { useEffect, useRef, useState } from 'preact/hooks';
import type { AheadAnswer, AheadWhat } from '../../../../src/contract/index.ts';
import { ask, type Problem } from '../../api/ask.ts';
import { aheadPath } from '../../api/paths.ts';
import { Trouble } from '../../parts/Trouble.tsx';
import { Waiting } from '../../parts/Waiting.tsx';
import { clockTime } from '../../time/site-time.ts';
import { readWallTime, wallToMs } from '../../time/wall-time.ts';
import { AheadWork } from './AheadWork.tsx';

interface Props {
  readonly jobId: string;
  readonly zone: string;
  readonly date: string;
  /** Now where the day is today, else when the first coat is listed. */
  readonly fromMs: number;
  /** As the list has it; null = the job's own split. */
  readonly bay: string | null;
  /** The present on site; null = another day. */
  at(): number | null;
}

const WHATS: readonly (readonly [AheadWhat, string])[] = [
  ['field', 'Field'],
  ['edges', 'Edges, upstands'],
  ['laps', 'Laps'],
];

interface Asked {
  readonly what: AheadWhat;
  readonly atMs: number;
  readonly people: number | null;
}

/** The minute that the field shows is the minute that is asked for. */
const wholeMinute = (ms: number): number => Math.floor(ms / 60_000) * 60_000;

/** 'How far ahead may we coat?', in one sentence, with the half hours one tap below. */
export function AheadPanel({ jobId, zone, date, fromMs, bay, at }: Props) {
  const [asked, setAsked] = useState<Asked>({
    what: 'field',
    atMs: wholeMinute(fromMs),
    people: null,
  });
  const [answer, setAnswer] = useState<AheadAnswer | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const [busy, setBusy] = useState(true);
  const [time, setTime] = useState<string | null>(null);
  const [people, setPeople] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
  const turn = useRef(0);

  useEffect(() => {
    turn.current += 1;
    const mine = turn.current;
    setBusy(true);
    const query: Record<string, string> = {
      at: new Date(asked.atMs).toISOString(),
      what: asked.what,
    };
    if (asked.people !== null) query['people'] = String(asked.people);
    if (bay !== null) query['bay'] = bay;
    void ask<AheadAnswer>(aheadPath(jobId, query)).then((reply) => {
      // An answer to a question asked before the last one is of no use any more.
      if (turn.current !== mine) return;
      setBusy(false);
      setProblem(reply.ok ? null : reply.problem);
      if (reply.ok) setAnswer(reply.data);
      else if (reply.problem.code === 'bad-input') setAnswer(null);
    });
  }, [asked, jobId, bay]);

  const typedTime = time ?? clockTime(asked.atMs, zone);
  const typedPeople = people ?? String(asked.people ?? answer?.people ?? '');
  const submit = (event: Event) => {
    event.preventDefault();
    const wall = readWallTime(typedTime);
    const ms = wall === null ? null : wallToMs(date, wall, zone);
    const crew = typedPeople.trim() === '' ? null : Number(typedPeople);
    if (ms === null) setError(`“${typedTime}” is no time of that day; such as 10:40 is accepted.`);
    else if (crew !== null && !(Number.isInteger(crew) && crew >= 2 && crew <= 30))
      setError(`“${typedPeople}” people; a whole number from 2 to 30 is accepted.`);
    else {
      setError(null);
      setAsked({ ...asked, atMs: ms, people: crew });
    }
  };

  return (
    <section class="ahead" aria-labelledby="ahead-title">
      <h2 id="ahead-title">How far ahead may we coat?</h2>
      <fieldset class="ahead-whats">
        <legend>What is coated</legend>
        {WHATS.map(([what, words]) => (
          <button
            key={what}
            type="button"
            class="second"
            aria-pressed={asked.what === what}
            onClick={() => setAsked({ ...asked, what })}
          >
            {words}
          </button>
        ))}
      </fieldset>
      <div aria-live="polite">
        {busy && answer === null && <Waiting words="Working out how far ahead …" />}
        {problem !== null && <Trouble problem={problem} again={() => setAsked({ ...asked })} />}
        {answer?.works.map((work) => (
          <AheadWork key={work.kind} work={work} zone={zone} date={date} />
        ))}
      </div>
      <form class="ahead-form" noValidate onSubmit={submit}>
        <span>
          <label for="ahead-at">At</label>
          <input
            id="ahead-at"
            type="text"
            autocomplete="off"
            value={typedTime}
            onInput={(event) => setTime(event.currentTarget.value)}
          />
        </span>
        <span>
          <label for="ahead-people">People</label>
          <input
            id="ahead-people"
            type="text"
            inputMode="numeric"
            autocomplete="off"
            value={typedPeople}
            onInput={(event) => setPeople(event.currentTarget.value)}
          />
        </span>
        <button type="submit">Work it out</button>
        {at() !== null && (
          <button
            type="button"
            class="second"
            onClick={() => {
              setTime(null);
              setAsked({ ...asked, atMs: wholeMinute(at() ?? fromMs) });
            }}
          >
            Now
          </button>
        )}
      </form>
      {error !== null && (
        <p class="field-error" role="alert">
          {error}
        </p>
      )}
      {answer !== null && (
        <details>
          <summary>How it was reckoned</summary>
          <ul>
            {answer.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
