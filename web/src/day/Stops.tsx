import type { StopAnswer } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { dayAndTime } from '../time/site-time.ts';
import { figure, minutesWords } from '../words/figures.ts';

interface Props {
  readonly stops: readonly StopAnswer[];
  readonly zone: string;
  readonly date: string;
}

/** Rounded up to what is weighed out on a roof. */
const roundUp = (kgM2: number): number => Math.ceil(kgM2 / 5 - 1e-9) * 5;

function Weight({ stop }: { stop: StopAnswer }) {
  const { looseM2, ballast } = stop;
  if (looseM2 <= 0) return null;
  return (
    <li>
      {figure(looseM2)} m² lies loose:{' '}
      {ballast === null ? (
        'weight not known, as the forecast does not reach; weight it as for strong wind.'
      ) : (
        <>
          weight <strong>{roundUp(ballast.fieldKgM2)} kg/m²</strong>, along edges and corners{' '}
          <strong>{roundUp(ballast.edgeKgM2)} kg/m²</strong>.
        </>
      )}
    </li>
  );
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
          <Weight stop={stop} />
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
