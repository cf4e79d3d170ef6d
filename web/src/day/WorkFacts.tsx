import { Cautions } from '../parts/Cautions.tsx';
import { SiteTime } from '../parts/SiteTime.tsx';
import { percent } from '../words/figures.ts';
import type { WorkLine } from './group-work.ts';

export interface DayFacts {
  readonly zone: string;
  readonly date: string;
  readonly jobId: string;
  /** Share of the forecasts in which a last safe start still gets the roof rain-safe. */
  readonly confidence: number;
  /** The line at work now, unfolded; null = none. */
  readonly openLine: number | null;
}

interface Props {
  readonly line: WorkLine;
  readonly facts: DayFacts;
}

/** When to start at the latest. Only work done in one go has such a time. */
function LastStart({ line, facts }: Props) {
  const item = line.kind === 'one' ? line.item : line.items[0];
  if (item === undefined || (!item.oneGo && item.lastSafeStartMs === null)) return null;
  const undo = line.noReturn === 'again' && ' Cannot be undone.';
  if (item.lastSafeStartMs === null) {
    return (
      <p class="last-start">
        No last safe start: even at the planned time fewer than {percent(facts.confidence)} of the
        forecasts get the roof rain-safe.{undo}
      </p>
    );
  }
  return (
    <p class="last-start">
      Last safe start{' '}
      <strong>
        <SiteTime ms={item.lastSafeStartMs} zone={facts.zone} lookingAt={facts.date} />
      </strong>
      {item.oneGo && ', done in one go'}.{undo}
    </p>
  );
}

function HoldPoints({ points }: { points: readonly string[] }) {
  if (points.length === 0) return null;
  return (
    <div class="hold-point">
      <strong>{points.length === 1 ? 'Hold point' : `Hold point, ${points.length} checks`}</strong>
      <ul>
        {points.map((point) => (
          <li key={point}>{point}</li>
        ))}
      </ul>
    </div>
  );
}

/** What every line of the order of work may carry below its title. */
export function WorkFacts({ line, facts }: Props) {
  return (
    <>
      {line.noReturn === 'first' && (
        <p class="no-return">
          <strong>Point of no return.</strong> From here on the roof has to be made rain-safe today.
          Look at the sky and the latest forecast first.
        </p>
      )}
      <LastStart line={line} facts={facts} />
      <HoldPoints points={line.holdPoints} />
      <Cautions cautions={line.cautions} />
      {line.cautionsAgain.length > 0 && (
        <details>
          <summary>
            {line.cautions.length > 0
              ? 'Cautions from above that hold here too'
              : 'Cautions as above'}
            : {line.cautionsAgain.length}
          </summary>
          <Cautions cautions={line.cautionsAgain} />
        </details>
      )}
      {line.ifRain.length > 0 && (
        <p class="if-rain">
          <strong>If rain comes:</strong>{' '}
          {line.ifRainAsFor === null ? line.ifRain.join(' ') : `as for ${line.ifRainAsFor}.`}
        </p>
      )}
    </>
  );
}
