import type { DayOption } from '../../../src/contract/index.ts';
import { addressOf } from '../job/tried.ts';
import { ChanceStrip } from '../parts/ChanceStrip.tsx';
import { SiteTime } from '../parts/SiteTime.tsx';
import { dateShort } from '../time/site-time.ts';
import { verdictWords } from '../words/labels.ts';

interface Props {
  readonly jobId: string;
  readonly zone: string;
  readonly day: DayOption;
}

/** The best of days that are all to be left is no choice. */
const isFirstChoice = ({ rank, verdict }: DayOption): boolean =>
  rank === 1 && (verdict === 'go' || verdict === 'doubtful');

/** 'Thu 14 · about 8 in 10 · start 09:15', with the same chance as sheets. */
export function DayLine({ jobId, zone, day }: Props) {
  const { chance, startMs, outcomes, date, way } = day;
  const first = isFirstChoice(day);
  const job = `/job/${encodeURIComponent(jobId)}`;
  const bay = way?.askBayM2 == null ? {} : { bay: String(way.askBayM2) };
  const dayPage = addressOf(`${job}/day/${date}`, bay);
  if (chance === null) {
    return (
      <li class="day-line">
        <a href={startMs === null ? `${job}?order=date` : dayPage}>
          <span class="day-date">{dateShort(date)}</span>
          <span class="day-off">{day.sentence}</span>
        </a>
      </li>
    );
  }
  return (
    <li class={first ? 'day-line first-choice' : 'day-line'}>
      <a href={dayPage}>
        <span class="day-date">{dateShort(date)}</span>
        <span class="day-chance">
          {chance.words}
          {first && ', first choice'}
        </span>
        {chance.tenths !== null && <ChanceStrip tenths={chance.tenths} />}
        <span class="day-start">
          {startMs === null ? (
            'leave it: no start fits'
          ) : (
            <>
              {verdictWords(day).toLowerCase()}, start{' '}
              <SiteTime ms={startMs} zone={zone} lookingAt={date} />
            </>
          )}
        </span>
        <span class="day-caught">
          caught open {outcomes.caughtOpen} of {chance.of}
        </span>
      </a>
    </li>
  );
}
