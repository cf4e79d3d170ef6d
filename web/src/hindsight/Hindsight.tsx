import type { Hindsight as Answer } from '../../../src/contract/index.ts';
import { endWords } from './end-words.ts';

type Day = Answer['days'][number];

/** What past calls said and what came of the days; nothing while there is nothing to look back on. */
export function Hindsight({ answer }: { answer: Answer }) {
  const { days, called, score, byLead, notes, sentence, daysLeftOut } = answer;
  if (days.length === 0) return null;
  return (
    <section class="hindsight" aria-labelledby="hindsight-title">
      <h2 id="hindsight-title">What was called, and what came</h2>
      <p>{sentence}</p>
      {called.length > 0 && (
        <ul>
          {called.map(({ said, words }) => (
            <li key={said}>{words}</li>
          ))}
        </ul>
      )}
      {score && (
        <details>
          <summary>Scores</summary>
          <p>By the last call before the day: {score.words}</p>
          <ul>
            {byLead.map(({ lead, score: of }) => (
              <li key={lead}>
                Called {lead}: {of.words}
              </li>
            ))}
          </ul>
        </details>
      )}
      <details>
        <summary>Days: {days.length + daysLeftOut}</summary>
        <ul>
          {days.map((day) => (
            <DayLine key={`${day.jobId} ${day.date}`} day={day} />
          ))}
        </ul>
        {daysLeftOut > 0 && (
          <p>{daysLeftOut} older days are not listed; they count all the same.</p>
        )}
      </details>
      <details>
        <summary>What counts</summary>
        <ul>
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      </details>
    </section>
  );
}

function DayLine({ day }: { day: Day }) {
  const { jobId, jobName, date, went, because, whyNot, calls } = day;
  const job = encodeURIComponent(jobId);
  return (
    <li>
      {date}, <a href={`/job/${job}/day/${date}`}>{jobName}</a>:{' '}
      {calls.length === 0 ? 'no call counts' : calls.map(callWords).join('; ')}.{' '}
      {went !== null && `It was ${endWords(went, because)}. `}
      {whyNot !== null && `Does not count: ${whyNot}.`}
    </li>
  );
}

const callWords = ({ lead, words, count, of }: Day['calls'][number]): string =>
  `${lead} ${count === 0 ? words : `${words} (${count} of ${of})`}`;
