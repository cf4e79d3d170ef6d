import type { WorkAnswer } from '../../../src/contract/index.ts';
import type { WorkLine } from '../day/group-work.ts';
import { SiteTime } from '../parts/SiteTime.tsx';
import { figure } from '../words/figures.ts';
import { HoursChart } from './HoursChart.tsx';
import { HoursTable } from './HoursTable.tsx';

interface Props {
  readonly answer: WorkAnswer;
  readonly lines: readonly WorkLine[];
}

/** From the first step that cannot be undone until the roof is rain-safe. */
function openFrom({ items }: WorkAnswer): number | null {
  const noReturn = items.filter((item) => item.noReturn).map((item) => item.startMs);
  return noReturn.length === 0 ? null : Math.min(...noReturn);
}

function surfaceWords({ surfaceMinC, surfaceMaxC }: WorkAnswer['limits']): string {
  if (surfaceMinC === null && surfaceMaxC === null) return 'no surface limit on the data sheet';
  if (surfaceMinC === null) return `surface at most ${figure(surfaceMaxC ?? 0)} °C`;
  if (surfaceMaxC === null) return `surface at least ${figure(surfaceMinC)} °C`;
  return `surface ${figure(surfaceMinC)} to ${figure(surfaceMaxC)} °C`;
}

/** The hours of the day: chart, how to read it, and the same figures as a table. */
export function HoursPanel({ answer, lines }: Props) {
  const { limits, job, day, rainSafeMs, sunriseMs, sunsetMs } = answer;
  const openFromMs = openFrom(answer);
  const time = (ms: number) => <SiteTime ms={ms} zone={job.timeZone} lookingAt={day.date} />;
  return (
    <section class="hours-panel" aria-labelledby="hours-title">
      <h2 id="hours-title">The hours</h2>
      {openFromMs !== null && rainSafeMs !== null && (
        <p class="open-time">
          Thick bar at the hours: the roof stands open from {time(openFromMs)} to {time(rainSafeMs)}
          , when it is rain-safe.
        </p>
      )}
      <HoursChart answer={answer} lines={lines} openFromMs={openFromMs} />
      <ul class="hours-key">
        <li>
          Band: 8 in 10 of the forecasts, line: their middle; gusts: the upper 1 in 10. Heavy broken
          line: the limit. A boxed figure: part of the range is past a limit.
        </li>
        <li>
          Limits: {surfaceWords(limits)}; at least {figure(limits.dewMarginMinK)} °C above the dew
          point; wind for handling sheets under {figure(limits.sheetWindMps)} m/s, gusts (dotted)
          under {figure(limits.gustMps)} m/s.
        </li>
        {sunriseMs !== null && sunsetMs !== null && (
          <li>
            Daylight from {time(sunriseMs)} to {time(sunsetMs)}; striped rows are dark.
          </li>
        )}
      </ul>
      <details>
        <summary>The same hours as a table</summary>
        <HoursTable answer={answer} />
      </details>
    </section>
  );
}
