import { useLocation, useRoute } from 'preact-iso';
import type { DayOption, DaysAnswer } from '../../../src/contract/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { daysPath } from '../api/paths.ts';
import { CostTable } from '../job/CostTable.tsx';
import { DayEntry } from '../job/DayEntry.tsx';
import { Cautions } from '../parts/Cautions.tsx';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { ageWords, WeatherSource } from '../parts/WeatherSource.tsx';
import { dayAndTime } from '../time/site-time.ts';
import { figure } from '../words/figures.ts';

/** Unranked days, on which no start fits, come last. */
function bestFirst(days: readonly DayOption[]): DayOption[] {
  return [...days].sort(
    (a, b) =>
      (a.rank ?? Number.POSITIVE_INFINITY) - (b.rank ?? Number.POSITIVE_INFINITY) ||
      a.date.localeCompare(b.date),
  );
}

function OrderLinks({ byDate, path }: { byDate: boolean; path: string }) {
  return (
    <nav class="order-links" aria-label="Order of the days">
      <a href={path} aria-current={byDate ? undefined : 'true'}>
        Best first
      </a>
      <a href={`${path}?order=date`} aria-current={byDate ? 'true' : undefined}>
        By date
      </a>
    </nav>
  );
}

function Days({ answer, byDate }: { answer: DaysAnswer; byDate: boolean }) {
  const { job, weather, bay, costs, threshold } = answer;
  if (weather === null) {
    return (
      <p class="no-forecast">{answer.noForecast ?? 'No current forecast: no chances are given.'}</p>
    );
  }
  const days = byDate ? answer.days : bestFirst(answer.days);
  return (
    <>
      <p>
        Laying day {bay.number} of {bay.of}: {figure(bay.areaM2)} m². It is{' '}
        {dayAndTime(answer.nowMs, job.timeZone)} on site and{' '}
        {ageWords({ label: weather, nowMs: answer.nowMs })}. All times are the site’s (
        {job.timeZone}).
      </p>
      <OrderLinks byDate={byDate} path={`/job/${encodeURIComponent(job.id)}`} />
      {days.length === 0 && <p>The forecast does not reach a working day of this job.</p>}
      <ol class="day-entries">
        {days.map((day, index) => (
          <DayEntry
            key={day.date}
            job={job}
            day={day}
            threshold={threshold}
            currency={costs.currency}
            open={byDate ? day.rank === 1 : index === 0}
          />
        ))}
      </ol>
      <WeatherSource label={weather} nowMs={answer.nowMs} zone={job.timeZone} />
      <CostTable costs={costs} threshold={threshold} />
      <Cautions cautions={answer.cautions} title="Before anyone goes up" />
    </>
  );
}

export function JobScreen() {
  const { params } = useRoute();
  const { query } = useLocation();
  const path = daysPath(params['id'] ?? '');
  const { data, problem, busy } = useHeld<DaysAnswer>(path);
  return (
    <Screen
      title={data?.job.name ?? 'Laying days'}
      above={
        <p class="trail">
          <a href="/">All jobs</a>
        </p>
      }
    >
      <p>
        <a class="to-roof" href={`/job/${encodeURIComponent(params['id'] ?? '')}/roof`}>
          Roof: sheets, materials and stages
        </a>
      </p>
      {problem && <Trouble problem={problem} again={() => void fetchHeld(path)} />}
      {!data && busy && <Waiting words="Working out the laying days …" />}
      {data && !data.job.demo && (
        <p>Your own job: it runs on the real date, never on the demo’s weather.</p>
      )}
      {data && <Days answer={data} byDate={query['order'] === 'date'} />}
    </Screen>
  );
}
