import { useState } from 'preact/hooks';
import { standingLog } from '../../../../src/products/index.ts';
import { ENDS, endWords, isAhead } from '../../hindsight/end-words.ts';
import { localDate } from '../../time/site-time.ts';
import { dayEndedEntry, undoEntry } from './entries.ts';
import { siteLog, write } from './site-log.ts';
import type { SiteJob } from './use-roof-desk.ts';
import { useSiteNow } from './use-site-now.ts';

/** How the day went, once there is something to say: chances are held against it. */
export function DayEnded({ job, date }: { job: SiteJob; date: string }) {
  const { nowMs, at } = useSiteNow(job.demo);
  const { events, loaded } = siteLog(job.id).value;
  const [picked, pick] = useState('');
  if (nowMs === null || !loaded) return null;
  const said = standingLog(events)
    .filter((event) => event.kind === 'day-ended')
    .filter((event) => event.date === date)
    .sort((a, b) => a.loggedMs - b.loggedMs)
    .at(-1);
  const ahead = localDate(nowMs, job.timeZone) < date;
  const ends = ENDS.filter(([went, because]) => !ahead || isAhead(went, because));
  const log = (event: Event) => {
    event.preventDefault();
    const end = ends.find(([, , words]) => words === picked);
    const ms = at();
    if (end === undefined || ms === null) return;
    void write(job.id, dayEndedEntry(job.id, date, end[0], end[1], ms));
    pick('');
  };
  return (
    <section class="day-ended" aria-labelledby="day-ended-title">
      <h2 id="day-ended-title">{ahead ? 'Called off?' : 'How did the day go?'}</h2>
      <form class="end-form" onSubmit={log}>
        <label for="day-end">{ahead ? 'The day is' : 'The day was'}</label>
        <select id="day-end" value={picked} onChange={(event) => pick(event.currentTarget.value)}>
          <option value="">not said</option>
          {ends.map(([, , words]) => (
            <option key={words} value={words}>
              {words}
            </option>
          ))}
        </select>
        <button type="submit" class="second" disabled={picked === ''}>
          Log
        </button>
      </form>
      <p role="status">{said !== undefined && `Logged: ${endWords(said.went, said.because)}.`}</p>
      {said !== undefined && (
        <p class="undo">
          <button
            type="button"
            class="second"
            onClick={() => void write(job.id, undoEntry(job.id, said.id, at() ?? said.loggedMs))}
          >
            Undo: {endWords(said.went, said.because)}
          </button>
        </p>
      )}
      <p class="hint">The chances of days to come are held against what is logged here.</p>
    </section>
  );
}
