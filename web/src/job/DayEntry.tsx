import type { DayOption, DaysAnswer } from '../../../src/contract/index.ts';
import type { TriedQuery } from '../api/paths.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { dateLong } from '../time/site-time.ts';
import { verdictWords } from '../words/labels.ts';
import { ChanceFigures } from './ChanceFigures.tsx';
import { DayBehind } from './DayBehind.tsx';
import { DayTimes } from './DayTimes.tsx';
import { Glance } from './Glance.tsx';
import { addressOf } from './tried.ts';

interface Props {
  readonly job: DaysAnswer['job'];
  readonly day: DayOption;
  readonly currency: string;
  readonly open: boolean;
  /** Costs tried, which the order of work is asked for with. */
  readonly costs: TriedQuery;
}

/** One laying day of a job: its line always in sight, the rest a tap below. */
export function DayEntry({ job, day, currency, open, costs }: Props) {
  const { date, way } = day;
  if (day.chance === null) {
    return (
      <li class="day-entry day-not-offered">
        <h2>{dateLong(date)}</h2>
        <p>{day.sentence}</p>
      </li>
    );
  }
  const bay = way?.askBayM2 == null ? {} : { bay: String(way.askBayM2) };
  const order = `/job/${encodeURIComponent(job.id)}/day/${date}`;
  return (
    <li class="day-entry">
      <details open={open}>
        <summary>
          <h2>{dateLong(date)}</h2>
          <span class={`verdict verdict-${day.verdict}`}>{verdictWords(day)}</span>
          {day.rank !== null && day.verdict !== 'no' && <span class="rank">choice {day.rank}</span>}
          <span class="day-glance">
            <Glance day={day} />
            {day.startMs !== null && <StartAndSafe day={day} zone={job.timeZone} />}
          </span>
        </summary>
        <div class="day-body">
          <p class="sentence">{day.sentence}</p>
          <DayTimes day={day} zone={job.timeZone} />
          <ChanceFigures day={day} />
          {day.startMs !== null && (
            <p class="to-order">
              <a class="step" href={addressOf(order, { ...bay, ...costs })}>
                Order of work for {dateLong(date)}
              </a>
            </p>
          )}
          <DayBehind
            day={day}
            zone={job.timeZone}
            currency={currency}
            toCosts="#costs-title"
            dayPage={order}
          />
        </div>
      </details>
    </li>
  );
}

function StartAndSafe({ day, zone }: { day: DayOption; zone: string }) {
  return (
    <span>
      start <SiteTime ms={day.startMs ?? 0} zone={zone} lookingAt={day.date} />
      {day.rainSafeByMs !== null && (
        <>
          , rain-safe by <SiteTime ms={day.rainSafeByMs} zone={zone} lookingAt={day.date} />
        </>
      )}
    </span>
  );
}
