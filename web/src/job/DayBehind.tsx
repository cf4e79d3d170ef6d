import type { DayOption } from '../../../src/contract/index.ts';
import { money } from '../../../src/units/index.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { peopleWords } from '../words/figures.ts';
import { Reasons } from './Reasons.tsx';
import { addressOf } from './tried.ts';

interface Props {
  readonly day: DayOption;
  readonly zone: string;
  readonly currency: string;
  /** Where other costs can be tried. */
  readonly toCosts: string;
  readonly dayPage: string;
}

/** All that stands behind a day's line: how it is laid, what stops it, what would turn it, when to decide. */
export function DayBehind({ day, zone, currency, toCosts, dayPage }: Props) {
  return (
    <div class="day-behind">
      <LaidAs day={day} zone={zone} />
      {day.wholeJob !== null && (
        <div>
          <h3>The whole job</h3>
          <p>{day.wholeJob.words}</p>
        </div>
      )}
      <Reasons day={day} zone={zone} />
      <Turns day={day} currency={currency} dayPage={dayPage} />
      <CallItOff day={day} zone={zone} currency={currency} toCosts={toCosts} />
      <SafeStarts day={day} zone={zone} />
    </div>
  );
}

function LaidAs({ day, zone }: Pick<Props, 'day' | 'zone'>) {
  const { way, date } = day;
  if (way === null) return null;
  return (
    <div>
      <h3>How it is laid</h3>
      {way.smallerBay !== null && <p class="smaller-bay">{way.smallerBay}</p>}
      <p>
        {way.order !== null && `Order of work: ${way.order}. `}
        {peopleWords(way.people)}, knocking off at{' '}
        <SiteTime ms={way.offMs} zone={zone} lookingAt={date} />.
      </p>
    </div>
  );
}

function Turns({ day, currency, dayPage }: Pick<Props, 'day' | 'currency' | 'dayPage'>) {
  if (day.turns.length === 0) return null;
  return (
    <div>
      <h3>What would turn it</h3>
      <ul>
        {day.turns.map(({ words, gainCost, askBayM2 }) => (
          <li key={words}>
            {words} {gainWords(gainCost, currency)}
            {askBayM2 !== null && (
              <a class="to-costs" href={addressOf(dayPage, { bay: String(askBayM2) })}>
                Order of work in such bays
              </a>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}

function gainWords(gain: number, currency: string): string {
  if (gain === 0) return 'Expected to cost the same.';
  return `Expected to cost ${money(Math.abs(gain), currency)} ${gain > 0 ? 'less' : 'more'}.`;
}

const WHEN: Readonly<Record<NonNullable<DayOption['callOff']>['best'], string>> = {
  now: 'Now',
  'evening before': 'The evening before',
  'on site': 'On site, before opening up',
  'go whatever': 'Go whatever comes',
};

function CallItOff({ day, zone, currency, toCosts }: Omit<Props, 'dayPage'>) {
  const { callOff, value, expectedCost, date } = day;
  const costs = new Set(callOff?.choices.map((choice) => choice.expectedCost));
  return (
    <div>
      <h3>Go or call it off</h3>
      {callOff !== null && <p>{callOff.words}</p>}
      {value !== null && <p>{value.words}</p>}
      {callOff !== null && costs.size > 1 ? (
        <table>
          <caption>What deciding then is expected to cost</caption>
          <tbody>
            {callOff.choices.map((choice) => (
              <tr key={choice.when} class={choice.when === callOff.best ? 'is-best' : undefined}>
                <th scope="row">
                  {WHEN[choice.when]}
                  {choice.when === callOff.best && ' (best)'}
                  {choice.atMs !== null && (
                    <span class="whose">
                      <SiteTime ms={choice.atMs} zone={zone} lookingAt={date} />
                    </span>
                  )}
                </th>
                <td>{money(choice.expectedCost, currency)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ) : (
        expectedCost !== null && (
          <p>Expected cost of choosing this day: {money(expectedCost, currency)}.</p>
        )
      )}
      <p>
        <a class="to-costs" href={toCosts}>
          Try other costs
        </a>
      </p>
    </div>
  );
}

function SafeStarts({ day, zone }: Pick<Props, 'day' | 'zone'>) {
  const timed = day.safeStarts.flatMap(({ words, lastMs }) =>
    lastMs === null ? [] : [{ words, lastMs }],
  );
  if (timed.length === 0) return day.safeStartsNote === null ? null : <p>{day.safeStartsNote}</p>;
  return (
    <details>
      <summary>Last safe start of each piece of work</summary>
      <ul class="safe-starts">
        {timed.map(({ words, lastMs }) => (
          <li key={words}>
            <strong>
              <SiteTime ms={lastMs} zone={zone} lookingAt={day.date} />
            </strong>{' '}
            {words}
          </li>
        ))}
      </ul>
      {day.safeStartsNote !== null && <p>{day.safeStartsNote}</p>}
    </details>
  );
}
