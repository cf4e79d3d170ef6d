import type { DaysAnswer } from '../../../src/contract/index.ts';
import { money } from '../../../src/units/index.ts';
import { COST_FIELDS, COST_LABELS } from './tried.ts';

interface TriedNoteProps extends Pick<DaysAnswer, 'tried' | 'costs'> {
  readonly path: string;
}

/** Said above the days, so that nobody takes a trial for the job's own plan. */
export function TriedNote({ tried, costs, path }: TriedNoteProps) {
  const parts = COST_FIELDS.flatMap((name) => {
    const value = tried[name];
    if (value === undefined) return [];
    return [`${COST_LABELS[name].toLowerCase()} ${money(value, costs.currency)}`];
  });
  if (parts.length === 0) return null;
  return (
    <p class="tried-note">
      <strong>Figures tried, not saved:</strong> {parts.join('; ')}.{' '}
      <a href={path}>Back to the job’s own figures</a>
    </p>
  );
}
