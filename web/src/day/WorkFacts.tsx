import { Cautions } from '../parts/Cautions.tsx';
import { SiteTime } from '../parts/SiteTime.tsx';
import type { WorkLine } from './group-work.ts';

interface Props {
  readonly line: WorkLine;
  readonly lastSafeStartMs: number | null;
  readonly oneGo: boolean;
  readonly holdPoints: readonly string[];
  readonly cautions: readonly string[];
  readonly zone: string;
  readonly date: string;
}

/** What every line of the order of work may carry below its title. */
export function WorkFacts(facts: Props) {
  const { line } = facts;
  return (
    <>
      {line.noReturn === 'first' && (
        <p class="no-return">
          <strong>Point of no return.</strong> From here on the roof has to be made rain-safe today.
          Look at the sky and the latest forecast first.
        </p>
      )}
      {facts.lastSafeStartMs !== null && (
        <p class="last-start">
          Last safe start{' '}
          <strong>
            <SiteTime ms={facts.lastSafeStartMs} zone={facts.zone} lookingAt={facts.date} />
          </strong>
          {facts.oneGo && ', finished in one go'}
          {line.noReturn === 'again' && '; cannot be undone'}
        </p>
      )}
      {facts.lastSafeStartMs === null && facts.oneGo && (
        <p class="last-start">
          Finished in one go{line.noReturn === 'again' && '; cannot be undone'}
        </p>
      )}
      {facts.holdPoints.map((point) => (
        <p key={point} class="hold-point">
          <strong>Hold point</strong> {point}
        </p>
      ))}
      <Cautions cautions={facts.cautions} />
      {line.ifRain.length > 0 && (
        <p class="if-rain">
          <strong>If rain comes:</strong>{' '}
          {line.ifRainAsFor === null ? line.ifRain.join(' ') : `as for ${line.ifRainAsFor}.`}
        </p>
      )}
    </>
  );
}
