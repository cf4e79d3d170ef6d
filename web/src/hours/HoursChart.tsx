import { useRef } from 'preact/hooks';
import type { WorkAnswer } from '../../../src/contract/index.ts';
import type { WorkLine } from '../day/group-work.ts';
import { dateLong } from '../time/site-time.ts';
import { AxisLane } from './AxisLane.tsx';
import { BandLane } from './BandLane.tsx';
import { BarLane } from './BarLane.tsx';
import { LaneHeads } from './LaneHeads.tsx';
import { type LaneName, layLanes } from './lay-lanes.ts';
import { Patterns } from './Patterns.tsx';
import { timeScale } from './time-scale.ts';
import { useWidth } from './use-width.ts';
import { WindLane } from './WindLane.tsx';
import { WorkLane } from './WorkLane.tsx';

interface Props {
  readonly answer: WorkAnswer;
  readonly lines: readonly WorkLine[];
  readonly openFromMs: number | null;
}

const TOP_PX = 40;
const ROW_PX = 40;
/** Room below for the last hour's label. */
const FOOT_PX = 20;

function Drawing({ answer, lines, openFromMs, widthPx }: Props & { widthPx: number }) {
  const scale = timeScale(answer, { topPx: TOP_PX, rowPx: ROW_PX });
  if (scale === null) return <p>No hours of weather are known for this day.</p>;
  const { hours, limits, job, day } = answer;
  const lanes = layLanes(widthPx);
  const heightPx = scale.bottomPx + FOOT_PX;
  const common = (name: LaneName) => ({ box: lanes[name].box, scale });
  return (
    <svg
      class="hours-chart"
      role="img"
      aria-label={`Hours of ${dateLong(day.date)}: stages of work beside rain chance, surface temperature, dew margin and wind. The table below holds the same figures.`}
      width={widthPx}
      height={heightPx}
      viewBox={`0 0 ${widthPx} ${heightPx}`}
    >
      <Patterns />
      <AxisLane
        {...common('axis')}
        stamps={hours.startMs}
        zone={job.timeZone}
        widthPx={widthPx}
        openFromMs={openFromMs}
        rainSafeMs={answer.rainSafeMs}
        sunriseMs={answer.sunriseMs}
        sunsetMs={answer.sunsetMs}
      />
      <LaneHeads lanes={lanes} bottomPx={scale.bottomPx} />
      <WorkLane {...common('work')} lines={lines} />
      <BarLane {...common('rain')} percents={hours.rainChancePct} fill="rain" />
      {lanes.wet.box.widthPx > 0 && (
        <BarLane {...common('wet')} percents={hours.deckWetPct} fill="wet" />
      )}
      <BandLane
        {...common('surface')}
        band={hours.surfaceTempC}
        atLeast={limits.surfaceMinC}
        atMost={limits.surfaceMaxC}
      />
      <BandLane
        {...common('dew')}
        band={hours.dewMarginK}
        atLeast={limits.dewMarginMinK}
        atMost={null}
      />
      <WindLane
        {...common('wind')}
        windMps={hours.windMps}
        gustMps={hours.gustMps}
        windAtMostMps={limits.sheetWindMps}
        gustAtMostMps={limits.gustMps}
      />
    </svg>
  );
}

/** The day's work and its weather on one time axis, which runs down the page like the list of work. */
export function HoursChart(props: Props) {
  const frame = useRef<HTMLDivElement>(null);
  const widthPx = useWidth(frame);
  return (
    <div class="hours-frame" ref={frame}>
      {widthPx !== null && widthPx > 0 && <Drawing {...props} widthPx={widthPx} />}
    </div>
  );
}
