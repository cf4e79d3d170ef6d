import { useMemo } from 'preact/hooks';
import { useLocation, useRoute } from 'preact-iso';
import type { JobRow, WorkAnswer } from '../../../src/contract/index.ts';
import { fetchHeld, useHeld } from '../api/held.ts';
import { jobPath, workPath } from '../api/paths.ts';
import { AheadPanel } from '../day/ahead/AheadPanel.tsx';
import { lineAt } from '../day/chapters.ts';
import { DayVerdict } from '../day/DayVerdict.tsx';
import { groupWork } from '../day/group-work.ts';
import { OrderOfWork } from '../day/OrderOfWork.tsx';
import { Stops } from '../day/Stops.tsx';
import { DayEnded } from '../day/site/DayEnded.tsx';
import { OnTheRoof } from '../day/site/OnTheRoof.tsx';
import { RoofDeskContext, type SiteJob, useRoofDesk } from '../day/site/use-roof-desk.ts';
import { HoursPanel } from '../hours/HoursPanel.tsx';
import { addressOf, costsOnly, triedIn } from '../job/tried.ts';
import { Cautions } from '../parts/Cautions.tsx';
import { Screen } from '../parts/Screen.tsx';
import { Trouble } from '../parts/Trouble.tsx';
import { Waiting } from '../parts/Waiting.tsx';
import { dateLong, isDate } from '../time/site-time.ts';

function Evening({ answer }: { answer: WorkAnswer }) {
  if (answer.evening.length === 0) return null;
  return (
    <section class="evening" aria-labelledby="evening-title">
      <h2 id="evening-title">The evening before</h2>
      <details>
        <summary>What to load and look at: {answer.evening.length}</summary>
        <ul>
          {answer.evening.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </details>
    </section>
  );
}

interface DayProps {
  readonly job: SiteJob;
  readonly date: string;
  /** Null = none can be given now; what was logged still runs. */
  readonly answer: WorkAnswer | null;
  /** The bay the list is made for, where it is not the job's own split. */
  readonly bay: string | null;
}

const textOf = (value: number | null | undefined): string | null =>
  value == null ? null : String(value);

/** The day on site: clocks first, then how far ahead, then the list. */
function Day({ job, date, answer, bay }: DayProps) {
  const desk = useRoofDesk(job, date, answer);
  const lines = useMemo(() => (answer === null ? [] : groupWork(answer.items)), [answer]);
  const firstCoatMs = desk.parts[0]?.startMs ?? answer?.day.startMs ?? null;
  const fromMs = desk.nowMs ?? firstCoatMs;
  // On the day itself what lies coated comes before everything else.
  const today = desk.nowMs !== null;
  const verdict = answer !== null && <DayVerdict answer={answer} />;
  return (
    <RoofDeskContext.Provider value={desk}>
      <div class="day-columns">
        {!today && verdict}
        <div class="day-main">
          <OnTheRoof desk={desk} atHand={lineAt(lines, desk.nowMs)} />
          {today && verdict}
          {fromMs !== null && desk.ready && (
            <AheadPanel
              key={date}
              jobId={job.id}
              zone={job.timeZone}
              date={date}
              fromMs={fromMs}
              bay={bay}
              at={desk.moments.at}
            />
          )}
          {answer !== null && (
            <>
              <Cautions cautions={answer.cautions} title="Before anyone goes up" />
              <OrderOfWork answer={answer} lines={lines} nowMs={desk.nowMs} />
              <Stops stops={answer.stops} zone={job.timeZone} date={date} />
              <Evening answer={answer} />
            </>
          )}
          <DayEnded key={`ended ${date}`} job={job} date={date} />
        </div>
        {answer !== null && <HoursPanel answer={answer} lines={lines} />}
      </div>
    </RoofDeskContext.Provider>
  );
}

export function DayScreen() {
  const { params } = useRoute();
  const [id, date] = [params['id'] ?? '', params['date'] ?? ''];
  const tried = triedIn(useLocation().query);
  const path = workPath(id, date, tried);
  const { data, problem, busy } = useHeld<WorkAnswer>(path);
  const row = useHeld<JobRow>(jobPath(id)).data;
  const when = isDate(date) ? dateLong(date) : date;
  const name = data?.job.name ?? row?.job.name;
  const timeZone = data?.job.timeZone ?? row?.job.site.timeZone;
  const demo = data?.job.demo ?? row?.job.demo;
  const site = useMemo(
    () =>
      timeZone === undefined || demo === undefined || !isDate(date) ? null : { id, timeZone, demo },
    [id, date, timeZone, demo],
  );
  return (
    <Screen
      title={name === undefined ? `Order of work, ${when}` : `${name}, ${when}`}
      above={
        <p class="trail">
          <a href="/">All jobs</a> <span aria-hidden="true">/</span>{' '}
          <a href={addressOf(`/job/${encodeURIComponent(id)}`, costsOnly(tried))}>
            {name ?? 'Laying days'}
          </a>
        </p>
      }
    >
      {problem && <Trouble problem={problem} again={() => void fetchHeld(path)} />}
      {!data && busy && <Waiting words={`Working out the order of work for ${when} …`} />}
      {site && (data || !busy) && (
        <Day
          job={site}
          date={date}
          answer={data}
          bay={data === null ? (tried['bay'] ?? null) : textOf(data.day.way?.askBayM2)}
        />
      )}
    </Screen>
  );
}
