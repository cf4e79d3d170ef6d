import type { DayOption } from '../../../src/contract/index.ts';

export const caughtWords = ({ outcomes, chance }: DayOption): string =>
  `caught open ${outcomes.caughtOpen} of ${chance?.of ?? 0}`;

/** The chance and, always beside it, being caught open. */
export function Glance({ day }: { day: DayOption }) {
  if (day.chance === null) return null;
  const { words, count, tenths } = day.chance;
  return (
    <span>
      <strong>{count === 0 && tenths !== null ? `${words} finishes` : words}</strong>,{' '}
      {caughtWords(day)}
    </span>
  );
}
