import type { DaysAnswer, JobRow } from '../../../src/contract/index.ts';
import { fetchHeld, held } from '../api/held.ts';
import { daysPath, firstDaysPath } from '../api/paths.ts';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { WeatherSource } from '../parts/WeatherSource.tsx';
import { figure, peopleWords } from '../words/figures.ts';
import { DayLine } from './DayLine.tsx';

function sizeWords(roof: JobRow['job']['roof']): string {
  if ('areas' in roof) {
    return roof.areas.length === 1 ? 'One drawn area' : `${roof.areas.length} drawn areas`;
  }
  const { lengthM, widthM } = roof;
  return `${figure(lengthM)} × ${figure(widthM)} m, ${figure(lengthM * widthM)} m²`;
}

function Days({ answer }: { answer: DaysAnswer }) {
  const { job, weather, noForecast } = answer;
  return (
    <>
      {weather === null ? (
        <p class="no-forecast">{noForecast ?? 'No current forecast: no chances are given.'}</p>
      ) : (
        <>
          <ol class="day-lines">
            {answer.days.map((day) => (
              <DayLine key={day.date} jobId={job.id} zone={job.timeZone} day={day} />
            ))}
          </ol>
          {answer.search.depth === 'quick' && (
            <p class="search-brief">
              First answer; <a href={`/job/${encodeURIComponent(job.id)}`}>the job’s own page</a>{' '}
              searches every day in full.
            </p>
          )}
          <WeatherSource label={weather} nowMs={answer.nowMs} zone={job.timeZone} brief />
        </>
      )}
    </>
  );
}

/** Of the job's own page, where that has been open, or of this one. */
function newer(full: DaysAnswer | null, first: DaysAnswer | null): DaysAnswer | null {
  if (full === null || first === null) return full ?? first;
  return full.nowMs >= first.nowMs ? full : first;
}

/** One job of the front page: what it is on the left, its next days on the right. */
export function JobEntry({ row }: { row: JobRow }) {
  const { job } = row;
  const path = firstDaysPath(job.id);
  const full = held<DaysAnswer>(daysPath(job.id)).value;
  const first = held<DaysAnswer>(path).value;
  const data = newer(full.data, first.data);
  const { problem, busy } = first;
  return (
    <section class="job-entry" aria-labelledby={`job-${job.id}`}>
      <div class="job-margin">
        <h2 id={`job-${job.id}`}>
          <a href={`/job/${encodeURIComponent(job.id)}`}>{job.name}</a>
        </h2>
        {job.demo && <p class="demo-job">Demo job</p>}
        <p>{job.site.name}</p>
        <p>{sizeWords(job.roof)}</p>
        <p>
          {job.crew.name}, {peopleWords(job.crew.people)}
        </p>
      </div>
      <div class="job-days">
        {problem && <Trouble problem={problem} again={() => void fetchHeld(path)} />}
        {data && <Days answer={data} />}
        {!data && busy && <Waiting words={`Working out the days for ${job.name} …`} />}
        {!data && !busy && !problem && <p class="waiting">Waiting for the job above.</p>}
      </div>
    </section>
  );
}
