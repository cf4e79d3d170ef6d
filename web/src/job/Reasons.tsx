import type { DayOption } from '../../../src/contract/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { forecastsWords } from '../words/figures.ts';
import { WHOSE_WORDS } from '../words/labels.ts';

interface Props {
  readonly day: DayOption;
  readonly zone: string;
}

/** What could stop the day, the commonest first, and whose limit each is. */
export function Reasons({ day, zone }: Props) {
  if (day.reasons.length === 0) return null;
  const of = day.chance?.of ?? null;
  const made = day.chance?.made === true;
  return (
    <div class="reasons">
      <h3>What could stop it</h3>
      <ul>
        {day.reasons.map((reason) => (
          <li key={reason.rule + reason.words}>
            <strong>{reason.words}</strong>
            {reason.aroundMs !== null && (
              <>
                , mostly around <SiteTime ms={reason.aroundMs} zone={zone} lookingAt={day.date} />
              </>
            )}
            {of !== null && (
              <span class="count-of">{` · ${reason.count} of ${forecastsWords(of, made)}`}</span>
            )}
            <span class="whose">{WHOSE_WORDS[reason.whose]}</span>
          </li>
        ))}
      </ul>
    </div>
  );
}
