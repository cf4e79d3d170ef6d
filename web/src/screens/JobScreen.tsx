import { useLocation, useRoute } from 'preact-iso';
import type { DaysAnswer } from '../../../src/contract/index.ts';
import { CostForm } from '../job/CostForm.tsx';
import { DayEntry } from '../job/DayEntry.tsx';
import { NeverFits } from '../job/NeverFits.tsx';
import { SearchLine } from '../job/SearchLine.tsx';
import { TriedNote } from '../job/TriedNote.tsx';
import { addressOf, costsOnly, triedIn } from '../job/tried.ts';
import { type DaysSearch, useDays } from '../job/use-days.ts';
import { useOrder } from '../job/use-order.ts';
import { Cautions } from '../parts/Cautions.tsx';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { ageWords, WeatherSource } from '../parts/WeatherSource.tsx';
import { dayAndTime } from '../time/site-time.ts';
import { figure } from '../words/figures.ts';

type Query = Readonly<Record<string, string>>;

function OrderLinks({ byDate, path, tried }: { byDate: boolean; path: string; tried: Query }) {
  return (
    <nav class="order-links" aria-label="Order of the days">
      <a href={addressOf(path, tried)} aria-current={byDate ? undefined : 'true'}>
        Best first
      </a>
      <a
        href={addressOf(path, { ...tried, order: 'date' })}
        aria-current={byDate ? 'true' : undefined}
      >
        By date
      </a>
    </nav>
  );
}

interface DaysProps {
  readonly answer: DaysAnswer;
  readonly search: DaysSearch;
  readonly byDate: boolean;
  readonly tried: Query;
}

function Days({ answer, search, byDate, tried }: DaysProps) {
  const { job, weather, bay, costs } = answer;
  const order = useOrder(answer.days, byDate);
  if (weather === null) {
    return (
      <p class="no-forecast">{answer.noForecast ?? 'No current forecast: no chances are given.'}</p>
    );
  }
  const path = `/job/${encodeURIComponent(job.id)}`;
  const keep: Query = byDate ? { order: 'date' } : {};
  return (
    <>
      <p>
        Laying day {bay.number} of {bay.of}: {figure(bay.areaM2)} m². It is{' '}
        {dayAndTime(answer.nowMs, job.timeZone)} on site and{' '}
        {ageWords({ label: weather, nowMs: answer.nowMs })}. All times are the site’s (
        {job.timeZone}).
      </p>
      <SearchLine search={answer.search} days={search} order={order} />
      <TriedNote tried={answer.tried} costs={costs} path={addressOf(path, keep)} />
      <NeverFits found={answer.neverFits} />
      <OrderLinks byDate={byDate} path={path} tried={tried} />
      {order.days.length === 0 && <p>The forecast does not reach a working day of this job.</p>}
      <ol class="day-entries" onFocusIn={order.touched}>
        {order.days.map((day) => (
          <DayEntry
            key={day.date}
            job={job}
            day={day}
            currency={costs.currency}
            open={day.date === order.open}
            costs={costsOnly(tried)}
          />
        ))}
      </ol>
      <WeatherSource label={weather} nowMs={answer.nowMs} zone={job.timeZone} />
      <CostForm
        answer={answer}
        problem={search.problem}
        path={path}
        keep={keep}
        triesNothing={Object.keys(tried).length === 0}
      />
      <Cautions cautions={answer.cautions} title="Before anyone goes up" />
    </>
  );
}

export function JobScreen() {
  const { params } = useRoute();
  const { query } = useLocation();
  const id = params['id'] ?? '';
  const tried = triedIn(query);
  const search = useDays(id, tried);
  const { answer, problem, running } = search;
  return (
    <Screen
      title={answer?.job.name ?? 'Laying days'}
      above={
        <p class="trail">
          <a href="/">All jobs</a>
        </p>
      }
    >
      <p>
        <a class="to-roof" href={`/job/${encodeURIComponent(id)}/roof`}>
          Roof: sheets, materials and stages
        </a>
      </p>
      {problem && <Trouble problem={problem} again={search.again} />}
      {!answer && running && <Waiting words="Working out the laying days …" />}
      {answer && !answer.job.demo && (
        <p>Your own job: it runs on the real date, never on the demo’s weather.</p>
      )}
      {answer && (
        <Days answer={answer} search={search} byDate={query['order'] === 'date'} tried={tried} />
      )}
    </Screen>
  );
}
