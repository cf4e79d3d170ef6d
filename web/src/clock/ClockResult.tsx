import type { ComponentChildren } from 'preact';
import type { ClockAnswer } from '../../../src/contract/index.ts';
import { Cautions } from '../parts/Cautions.tsx';
import { SiteTime } from '../parts/SiteTime.tsx';
import { WeatherSource } from '../parts/WeatherSource.tsx';
import { localDate, timeFrom } from '../time/site-time.ts';
import { ClockReasons } from './ClockReasons.tsx';
import { FACE_WORDS, windowWords } from './clock-words.ts';

interface Props {
  readonly answer: ClockAnswer;
  readonly zone: string;
  readonly nowMs: number;
}

type Range = NonNullable<ClockAnswer['touchDry']>;
type Time = (ms: number) => ComponentChildren;

const BEYOND = 'a time beyond what was looked at';

interface LineProps {
  readonly words: string;
  /** Of no use for what is done next. */
  readonly later?: boolean;
  readonly children: ComponentChildren;
}

function Line({ words, later = false, children }: LineProps) {
  return (
    <div class={later ? 'later' : undefined}>
      <dt>{words}</dt>
      <dd>{children}</dd>
    </div>
  );
}

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

/** The end that the window counts on; outside the data sheet that is the earliest. */
function Usable({ range, withheld, time }: { range: Range; withheld: boolean; time: Time }) {
  const { earlyMs, midMs, lateMs } = range;
  const or = (ms: number | null) => (ms === null ? BEYOND : time(ms));
  const leadMs = withheld ? earlyMs : midMs;
  return (
    <>
      <strong>{leadMs === null ? 'beyond the time looked at' : time(leadMs)}</strong>{' '}
      <span class="around">
        {withheld ? (
          <>
            at most; in order it would be {or(midMs)}, at the latest {or(lateMs)}
          </>
        ) : (
          <>
            {or(earlyMs)} at the earliest, {or(lateMs)} at the latest
          </>
        )}
      </span>
    </>
  );
}

/** Every moment the product has; those that say 'ready' are withheld outside its data sheet. */
function Lines({ answer, time }: { answer: ClockAnswer; time: Time }) {
  const { coatedMs, coatedUntilMs, withheld, usableUntil, product } = answer;
  const ready = [
    ['Touch dry', answer.touchDry],
    ['Rain does no harm after', answer.rainAfter],
    ['Foot traffic', answer.footTraffic],
    ['Full cure', answer.fullCure],
  ] as const;
  const line = ([words, range]: (typeof ready)[number]) =>
    range === null ? null : (
      <Line key={words} words={words} later={words !== 'Touch dry'}>
        <Around range={range} time={time} />
      </Line>
    );
  return (
    <dl class="clock-lines">
      <Line words="Coated">
        {time(coatedMs)}
        {coatedUntilMs > coatedMs && <> to {time(coatedUntilMs)}, first to last square metre</>}
      </Line>
      {withheld && (
        <Line words={product.closing === 'touch-dry' ? 'Touch dry' : 'Ready'}>
          <strong>withheld</strong>{' '}
          <span class="around">outside the data sheet; test, and ask the supplier</span>
        </Line>
      )}
      {line(ready[0])}
      {usableUntil !== null && (
        <Line words="Usable until">
          <Usable range={usableUntil} withheld={withheld} time={time} />
        </Line>
      )}
      {ready.slice(1).map(line)}
    </dl>
  );
}

function Faces({ answer, time }: { answer: ClockAnswer; time: Time }) {
  if (answer.faces.length < 2) return null;
  const or = (ms: number | null) => (ms === null ? '–' : time(ms));
  return (
    <table class="clock-faces">
      <caption>Each face: middle of its range, in brackets how early and late</caption>
      <thead>
        <tr>
          <th scope="col">Face</th>
          <th scope="col">Touch dry</th>
          <th scope="col">Usable until</th>
        </tr>
      </thead>
      <tbody>
        {answer.faces.map(({ face, touchDry, usableUntil }) => (
          <tr key={face}>
            <th scope="row">{FACE_WORDS[face]}</th>
            {[touchDry, usableUntil].map((range, index) => (
              <td key={index === 0 ? 'dry' : 'usable'}>
                {range === null ? (
                  '–'
                ) : (
                  <>
                    {or(range.midMs)} ({or(range.earlyMs)} to {or(range.lateMs)})
                  </>
                )}
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What to do, to be read first. */
function Main({ answer, text }: { answer: ClockAnswer; text: (ms: number) => string }) {
  const { usableUntil, withheld } = answer;
  const window = windowWords(answer, text);
  const [head, detail, stop] =
    window !== null && (window.fails || !withheld)
      ? [window.head, window.detail, window.fails]
      : withheld
        ? ['Not called ready', countWords(usableUntil?.earlyMs ?? null, text), true]
        : [null, answer.sentence, false];
  return (
    <div class={stop ? 'clock-main clock-main-no' : 'clock-main'}>
      {head !== null && <p class="clock-head">{head}</p>}
      <p class="sentence">{detail}</p>
      {window?.fails && withheld && <p>Outside the data sheet as well: not called ready.</p>}
    </div>
  );
}

function countWords(earlyMs: number | null, text: (ms: number) => string): string {
  const until = earlyMs === null ? '' : ` Count on it being usable until ${text(earlyMs)} at most.`;
  return `Outside the data sheet.${until} Test it, and ask the supplier.`;
}

/** All moments of what was coated, each as a range, never as one bare number. */
export function ClockResult({ answer, zone, nowMs }: Props) {
  const date = localDate(answer.coatedMs, zone);
  const time = (ms: number) => <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  const text = (ms: number) => timeFrom(ms, zone, date);
  const window = windowWords(answer, text);
  return (
    <div class="clock-result">
      <h2>{answer.product.name}</h2>
      <Main answer={answer} text={text} />
      {answer.wontDry !== null && <p class="wont-dry">{answer.wontDry}</p>}
      <Lines answer={answer} time={time} />
      <ClockReasons answer={answer} time={text} />
      {(window !== null || answer.withheld) && (
        <details>
          <summary>The whole of it in words</summary>
          <p>{answer.sentence}</p>
        </details>
      )}
      <Faces answer={answer} time={time} />
      <p>The finger test decides: tacky, no transfer, no string. The clock never overrules it.</p>
      <Cautions cautions={answer.cautions} />
      {answer.weather !== null && (
        <WeatherSource label={answer.weather} nowMs={nowMs} zone={zone} />
      )}
    </div>
  );
}
