import type { DayOption } from '../../../src/contract/index.ts';
import { ChanceStrip } from '../parts/ChanceStrip.tsx';
import { SiteTime } from '../parts/SiteTime.tsx';
import { dateShort } from '../time/site-time.ts';
import { VERDICT_WORDS } from '../words/labels.ts';

interface Props {
  readonly jobId: string;
  readonly zone: string;
  readonly day: DayOption;
}

/** 'Thu 14 · about 8 in 10 · start 09:15', with the same chance as sheets. */
export function DayLine({ jobId, zone, day }: Props) {
  const { chance, startMs, outcomes, date } = day;
  return (
    <li class={day.rank === 1 ? 'day-line first-choice' : 'day-line'}>
      <a href={`/job/${encodeURIComponent(jobId)}/day/${date}`}>
        <span class="day-date">{dateShort(date)}</span>
        <span class="day-chance">{chance?.words ?? VERDICT_WORDS[day.verdict]}</span>
        {chance !== null && chance.tenths !== null && <ChanceStrip tenths={chance.tenths} />}
        <span class="day-start">
          {startMs === null ? (
            'no start fits'
          ) : (
            <>
              start <SiteTime ms={startMs} zone={zone} lookingAt={date} />
            </>
          )}
        </span>
        <span class="day-caught">
          {chance === null
            ? 'no chance given'
            : `caught open ${outcomes.caughtOpen} of ${chance.of}`}
        </span>
        {day.rank === 1 && <span class="day-first">first choice</span>}
      </a>
    </li>
  );
}
