import type { StopAnswer } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { dayAndTime } from '../time/site-time.ts';
import { figure, minutesWords } from '../words/figures.ts';

interface Props {
  readonly stops: readonly StopAnswer[];
  readonly zone: string;
  readonly date: string;
}

function Stop({ stop, zone, date }: { stop: StopAnswer; zone: string; date: string }) {
  return (
    <li class={stop.allowed ? 'stop' : 'stop stop-no'}>
      <details>
        <summary>
          <span class="stop-mark">{stop.allowed ? 'May stop' : 'Not here'}</span>{' '}
          <span class="stop-title">{stop.title}</span>{' '}
          <span class="stop-from">
            from <SiteTime ms={stop.fromMs} zone={zone} lookingAt={date} />
          </span>
        </summary>
        <p>{stop.why}</p>
        <ul>
          <li>Next shift: {dayAndTime(stop.untilMs, zone)}.</li>
          <li>
            {stop.sealM > 0
              ? `Seal ${figure(stop.sealM)} m of edge, about ${minutesWords(stop.minutes)}.`
              : 'No edge to seal.'}
          </li>
          {stop.looseM2 > 0 && <li>{figure(stop.looseM2)} m² lies loose, to be weighted.</li>}
        </ul>
        <p class="stop-weather">{stop.words}</p>
        <strong>Before you leave</strong>
        <ul>
          {stop.actions.map((action) => (
            <li key={action}>{action}</li>
          ))}
        </ul>
      </details>
    </li>
  );
}

/** Where the roof may be left until the next shift, and what it has to stand there. */
export function Stops({ stops, zone, date }: Props) {
  if (stops.length === 0) return null;
  return (
    <section class="stops" aria-labelledby="stops-title">
      <h2 id="stops-title">Places to stop</h2>
      <ul class="stop-list">
        {stops.map((stop) => (
          <Stop key={`${stop.kind}-${stop.fromMs}`} stop={stop} zone={zone} date={date} />
        ))}
      </ul>
    </section>
  );
}
