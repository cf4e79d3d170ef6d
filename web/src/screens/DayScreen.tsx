import { useMemo } from 'preact/hooks';
import { useRoute } from 'preact-iso';
import type { WorkAnswer } from '../../../src/contract/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { workPath } from '../api/paths.ts';
import { groupWork } from '../day/group-work.ts';
import { OrderOfWork } from '../day/OrderOfWork.tsx';
import { HoursPanel } from '../hours/HoursPanel.tsx';
import { ChanceFigures } from '../job/ChanceFigures.tsx';
import { DayTimes } from '../job/DayTimes.tsx';
import { Reasons } from '../job/Reasons.tsx';
import { Cautions } from '../parts/Cautions.tsx';
import { Screen } from '../parts/Screen.tsx';
import { SiteTime } from '../parts/SiteTime.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { WeatherSource } from '../parts/WeatherSource.tsx';
import { dateLong, isDate } from '../time/site-time.ts';
import { figure } from '../words/figures.ts';
import { VERDICT_WORDS } from '../words/labels.ts';

function Verdict({ answer }: { answer: WorkAnswer }) {
  const { day, job, bay } = answer;
  return (
    <section class="day-verdict" aria-labelledby="verdict-title">
      <h2 id="verdict-title">
        <span class={`verdict verdict-${day.verdict}`}>{VERDICT_WORDS[day.verdict]}</span>
      </h2>
      <p class="sentence">{day.sentence}</p>
      <nav class="jumps" aria-label="On this page">
        <a href="#hours-title">The hours</a>
        <a href="#evening-title">The evening before</a>
        <a href="#order-title">Order of work</a>
      </nav>
      <p>
        Laying day {bay.number} of {bay.of}, {figure(bay.areaM2)} m²; sections of{' '}
        {figure(answer.sectionM2)} m².
      </p>
      <DeckDry answer={answer} />
      <div class="day-body">
        <DayTimes day={day} zone={job.timeZone} />
        <ChanceFigures day={day} threshold={null} />
        <Reasons day={day} zone={job.timeZone} />
      </div>
      <WeatherSource label={answer.weather} nowMs={answer.nowMs} zone={job.timeZone} />
    </section>
  );
}

/** When the deck can be laid on: a range, or why nobody can say. */
function DeckDry({ answer }: { answer: WorkAnswer }) {
  const { deckDry, job, day } = answer;
  if (!deckDry.known) return <p>{deckDry.why}</p>;
  const time = (ms: number | null) =>
    ms === null ? 'not that day' : <SiteTime ms={ms} zone={job.timeZone} lookingAt={day.date} />;
  return (
    <p>
      Deck dry from about {time(deckDry.midMs)} ({time(deckDry.earlyMs)} to {time(deckDry.lateMs)}
      ): touch it, tissue test.
    </p>
  );
}

function Evening({ answer }: { answer: WorkAnswer }) {
  if (answer.evening.length === 0) return null;
  return (
    <section class="evening" aria-labelledby="evening-title">
      <h2 id="evening-title">The evening before</h2>
      <ul>
        {answer.evening.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}

function Day({ answer }: { answer: WorkAnswer }) {
  const lines = useMemo(() => groupWork(answer.items), [answer]);
  return (
    <div class="day-columns">
      <Verdict answer={answer} />
      <HoursPanel answer={answer} lines={lines} />
      <div class="day-main">
        <Evening answer={answer} />
        <Cautions cautions={answer.cautions} title="Before anyone goes up" />
        <OrderOfWork answer={answer} lines={lines} />
      </div>
    </div>
  );
}

export function DayScreen() {
  const { params } = useRoute();
  const [id, date] = [params['id'] ?? '', params['date'] ?? ''];
  const path = workPath(id, date);
  const { data, problem, busy } = useHeld<WorkAnswer>(path);
  const when = isDate(date) ? dateLong(date) : date;
  return (
    <Screen
      title={data ? `${data.job.name}, ${when}` : `Order of work, ${when}`}
      above={
        <p class="trail">
          <a href="/">All jobs</a> <span aria-hidden="true">/</span>{' '}
          <a href={`/job/${encodeURIComponent(id)}`}>{data?.job.name ?? 'Laying days'}</a>
        </p>
      }
    >
      {problem && <Trouble problem={problem} again={() => void fetchHeld(path)} />}
      {!data && busy && <Waiting words={`Working out the order of work for ${when} …`} />}
      {data && <Day answer={data} />}
    </Screen>
  );
}
