import type { ComponentChildren } from 'preact';
import type { ClockAnswer } from '../../../src/contract/index.ts';
import { Cautions } from '../parts/Cautions.tsx';
import { SiteTime } from '../parts/SiteTime.tsx';
import { WeatherSource } from '../parts/WeatherSource.tsx';
import { localDate } from '../time/site-time.ts';

interface Props {
  readonly answer: ClockAnswer;
  readonly zone: string;
  readonly nowMs: number;
}

function Line({ words, children }: { words: string; children: ComponentChildren }) {
  return (
    <div>
      <dt>{words}</dt>
      <dd>{children}</dd>
    </div>
  );
}

type Range = NonNullable<ClockAnswer['touchDry']>;
type Time = (ms: number) => ComponentChildren;

const BEYOND = 'a time beyond what was looked at';

/** The middle, and how early or late it may be. */
function Around({ range, time }: { range: Range; time: Time }) {
  const { earlyMs, midMs, lateMs } = range;
  return (
    <>
      <strong>{midMs === null ? 'not in the time looked at' : time(midMs)}</strong>{' '}
      {earlyMs !== null && (
        <span class="around">
          from {time(earlyMs)} to {lateMs === null ? BEYOND : time(lateMs)}
        </span>
      )}
    </>
  );
}

/** The earliest end leads: nobody should count on the middle of this range. */
function Usable({ range, time }: { range: Range; time: Time }) {
  const { earlyMs, midMs } = range;
  return (
    <>
      <strong>{earlyMs === null ? 'beyond the time looked at' : time(earlyMs)}</strong>{' '}
      {earlyMs !== null && (
        <span class="around">
          at the earliest; in the middle of the range until {midMs === null ? BEYOND : time(midMs)}
        </span>
      )}
    </>
  );
}

/** When it is touch dry and until when usable, each as a range, never as one bare number. */
export function ClockResult({ answer, zone, nowMs }: Props) {
  const date = localDate(answer.coatedMs, zone);
  const time = (ms: number) => <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  const { touchDry, usableUntil, rainAfter } = answer;
  return (
    <div class="clock-result">
      <h2>{answer.product.name}</h2>
      <p class="sentence">{answer.sentence}</p>
      {answer.wontDry !== null && <p class="wont-dry">{answer.wontDry}</p>}
      <dl class="clock-lines">
        <Line words="Coated">{time(answer.coatedMs)}</Line>
        {touchDry !== null && (
          <Line words="Touch dry">
            <Around range={touchDry} time={time} />
          </Line>
        )}
        {usableUntil !== null && (
          <Line words="Usable until">
            <Usable range={usableUntil} time={time} />
          </Line>
        )}
        {rainAfter !== null && (
          <Line words="Rain does no harm after">
            <Around range={rainAfter} time={time} />
          </Line>
        )}
      </dl>
      {answer.outside.length > 0 && (
        <div class="outside">
          <strong>Outside the data sheet</strong>
          <ul>
            {answer.outside.map((reason) => (
              <li key={reason}>{reason}</li>
            ))}
          </ul>
        </div>
      )}
      <p>The finger test decides: tacky, no transfer, no string. The clock never overrules it.</p>
      <Cautions cautions={answer.cautions} />
      {answer.weather !== null && (
        <WeatherSource label={answer.weather} nowMs={nowMs} zone={zone} />
      )}
    </div>
  );
}
