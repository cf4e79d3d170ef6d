import type { WorkItem } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';

interface Props {
  readonly clock: NonNullable<WorkItem['clock']>;
  readonly zone: string;
  readonly date: string;
}

/** When what was coated is touch dry, and until when it is usable. */
export function ClockTimes({ clock, zone, date }: Props) {
  const time = (ms: number) => <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  const { touchDryMs, touchDryEarlyMs, touchDryLateMs, usableUntilMs } = clock;
  const until = usableUntilMs === null ? 'not known' : time(usableUntilMs);
  if (clock.closeWhileWet) {
    return (
      <p class="clock-times">
        Lay into it wet; usable until <strong>{until}</strong>
      </p>
    );
  }
  return (
    <p class="clock-times">
      Touch dry {touchDryMs === null ? 'at a time not known' : <strong>{time(touchDryMs)}</strong>}
      {touchDryEarlyMs !== null && touchDryLateMs !== null && (
        <>
          {' '}
          (from {time(touchDryEarlyMs)} to {time(touchDryLateMs)})
        </>
      )}
      ; usable until <strong>{until}</strong>. The finger test decides.
    </p>
  );
}
