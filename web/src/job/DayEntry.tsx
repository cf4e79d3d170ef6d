import type { DayOption, DaysAnswer } from '../../../src/contract/index.ts';
import { dateLong } from '../time/site-time.ts';
import { money } from '../words/figures.ts';
import { VERDICT_WORDS } from '../words/labels.ts';
import { ChanceFigures } from './ChanceFigures.tsx';
import { DayTimes } from './DayTimes.tsx';
import { Reasons } from './Reasons.tsx';

interface Props {
  readonly job: DaysAnswer['job'];
  readonly day: DayOption;
  readonly threshold: number;
  readonly currency: string;
  readonly open: boolean;
}

/** One laying day of a job: the verdict always in sight, the rest a tap below. */
export function DayEntry({ job, day, threshold, currency, open }: Props) {
  return (
    <li class="day-entry">
      <details open={open}>
        <summary>
          <h2>{dateLong(day.date)}</h2>
          <span class={`verdict verdict-${day.verdict}`}>{VERDICT_WORDS[day.verdict]}</span>
          {day.chance && <span class="summary-chance">{day.chance.words}</span>}
          {day.rank !== null && day.verdict !== 'no' && <span class="rank">choice {day.rank}</span>}
        </summary>
        <div class="day-body">
          <p class="sentence">{day.sentence}</p>
          <DayTimes day={day} zone={job.timeZone} />
          <ChanceFigures day={day} threshold={threshold} />
          <Reasons day={day} zone={job.timeZone} />
          {day.expectedCost !== null && (
            <p class="expected">
              Expected cost of choosing this day: {money(day.expectedCost, currency)}
            </p>
          )}
          {day.startMs !== null && (
            <p>
              <a class="step" href={`/job/${encodeURIComponent(job.id)}/day/${day.date}`}>
                Order of work for {dateLong(day.date)}
              </a>
            </p>
          )}
        </div>
      </details>
    </li>
  );
}
