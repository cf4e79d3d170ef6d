import type { DayOption } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { minutesWords } from '../words/figures.ts';

interface Props {
  readonly day: DayOption;
  readonly zone: string;
}

/** The four times a foreman writes on his hand, and how long the roof lies open. */
export function DayTimes({ day, zone }: Props) {
  const times = [
    ['Start', day.startMs],
    ['Last adhesive by', day.lastAdhesiveMs],
    ['Rain-safe by', day.rainSafeByMs],
    ['Finished by', day.finishMs],
  ] as const;
  if (times.every(([, ms]) => ms === null)) return null;
  return (
    <>
      <dl class="day-times">
        {times.map(([words, ms]) => (
          <div key={words}>
            <dt>{words}</dt>
            <dd>
              {ms === null ? 'not known' : <SiteTime ms={ms} zone={zone} lookingAt={day.date} />}
            </dd>
          </div>
        ))}
      </dl>
      {day.openFromMs !== null && day.openMin !== null && (
        <p class="day-open">
          Opened about <SiteTime ms={day.openFromMs} zone={zone} lookingAt={day.date} /> in a
          middling forecast; then open for about {minutesWords(day.openMin)} or less.
        </p>
      )}
    </>
  );
}
