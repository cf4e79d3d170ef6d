import type { ComponentChildren } from 'preact';
import { SiteTime } from '../parts/SiteTime.tsx';
import { minutesWords } from '../words/figures.ts';
import type { WorkLine } from './group-work.ts';
import type { DayFacts } from './WorkFacts.tsx';

interface Props {
  readonly line: WorkLine;
  readonly facts: DayFacts;
  readonly startMs: number;
  readonly endMs: number;
  readonly title: string;
  readonly wait: { readonly minutes: number; readonly why: string } | null;
  readonly children: ComponentChildren;
}

/** What must not be overlooked while the line is folded. */
function marksOf({ holdPoints, noReturn }: WorkLine): string[] {
  return [
    ...(noReturn === 'first' ? ['Point of no return'] : []),
    ...(holdPoints.length > 0
      ? [holdPoints.length === 1 ? 'Hold point' : `${holdPoints.length} hold points`]
      : []),
  ];
}

/** One line of the order of work: its time and name, the rest one tap below. */
export function WorkRow({ line, facts, startMs, endMs, title, wait, children }: Props) {
  const { zone, date, openLine } = facts;
  const time = (ms: number) => <SiteTime ms={ms} zone={zone} lookingAt={date} />;
  const { number } = line;
  const marks = marksOf(line);
  return (
    <li class="work-entry" id={`work-${number}`}>
      {wait !== null && (
        <p class="wait">
          Wait {minutesWords(wait.minutes)}: {wait.why}
        </p>
      )}
      <details open={number === openLine}>
        <summary>
          <span class="work-time">
            {time(startMs)}
            <span class="until"> to {time(endMs)}</span>
          </span>
          {marks.length > 0 && (
            <span class="work-marks">
              {marks.map((mark) => (
                <span key={mark} class="work-mark">
                  {mark}
                </span>
              ))}
            </span>
          )}
          <h3>
            <span class="work-number">{number}</span> {title}
          </h3>
        </summary>
        <div class="work-body">{children}</div>
      </details>
    </li>
  );
}
