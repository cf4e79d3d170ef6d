import type { DayOption } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';

interface Props {
  readonly day: DayOption;
  readonly zone: string;
}

/** The four times a foreman writes on his hand. */
export function DayTimes({ day, zone }: Props) {
  const times = [
    ['Start', day.startMs],
    ['Last adhesive by', day.lastAdhesiveMs],
    ['Rain-safe by', day.rainSafeByMs],
    ['Finished by', day.finishMs],
  ] as const;
  if (times.every(([, ms]) => ms === null)) return null;
  return (
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
  );
}
