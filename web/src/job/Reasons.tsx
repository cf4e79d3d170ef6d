import type { DayOption, Reason } from '../../../src/contract/index.ts';
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
                <Between reason={reason} day={day} zone={zone} />
              </>
            )}
            {of !== null && (
              <span class="count-of">{` · ${reason.count} of ${forecastsWords(of, made)}`}</span>
            )}
            <span class="whose">{WHOSE_WORDS[reason.whose]}</span>
          </li>
        ))}
      </ul>
      <Limit day={day} />
    </div>
  );
}

/** Less than this apart is one moment. */
const APART_MS = 15 * 60_000;

function Between({ reason, day, zone }: Props & { readonly reason: Reason }) {
  const { earlyMs, lateMs } = reason;
  if (earlyMs === null || lateMs === null || lateMs - earlyMs < APART_MS) return null;
  return (
    <>
      {' '}
      (<SiteTime ms={earlyMs} zone={zone} lookingAt={day.date} /> to{' '}
      <SiteTime ms={lateMs} zone={zone} lookingAt={day.date} />)
    </>
  );
}

/** The one limit that costs the day most; what it would be without it only where the firm may change it. */
function Limit({ day: { limit } }: { day: DayOption }) {
  return limit === null ? null : <p class="limit">{limit.words}</p>;
}
