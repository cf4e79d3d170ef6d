import { clockTime } from '../time/site-time.ts';
import type { LaneBox } from './lane.ts';
import { HOUR_MS, type TimeScale } from './time-scale.ts';

interface Props {
  readonly box: LaneBox;
  readonly scale: TimeScale;
  readonly stamps: readonly number[];
  readonly zone: string;
  readonly widthPx: number;
  readonly openFromMs: number | null;
  readonly rainSafeMs: number | null;
  readonly sunriseMs: number | null;
  readonly sunsetMs: number | null;
}

function Dark({
  scale,
  fromMs,
  toMs,
  widthPx,
}: {
  scale: TimeScale;
  fromMs: number;
  toMs: number;
  widthPx: number;
}) {
  const [top, bottom] = [scale.y(scale.within(fromMs)), scale.y(scale.within(toMs))];
  if (bottom - top < 1) return null;
  return <rect class="dark" x={0} y={top} width={widthPx} height={bottom - top} />;
}

/** The hours down the left, the dark, and the time the roof stands open. */
export function AxisLane(props: Props) {
  const { box, scale, stamps, zone, widthPx, openFromMs, rainSafeMs, sunriseMs, sunsetMs } = props;
  const barX = box.leftPx + box.widthPx - 8;
  return (
    <g class="axis">
      {sunriseMs !== null && (
        <Dark scale={scale} fromMs={scale.startMs} toMs={sunriseMs} widthPx={widthPx} />
      )}
      {sunsetMs !== null && (
        <Dark scale={scale} fromMs={sunsetMs} toMs={scale.endMs} widthPx={widthPx} />
      )}
      {stamps.slice(scale.from, scale.to).map((ms) => (
        <g key={ms}>
          <line class="hour-line" x1={0} x2={widthPx} y1={scale.y(ms)} y2={scale.y(ms)} />
          <text x={box.leftPx} y={scale.y(ms) + 14}>
            {clockTime(ms, zone)}
          </text>
        </g>
      ))}
      <line class="hour-line" x1={0} x2={widthPx} y1={scale.bottomPx} y2={scale.bottomPx} />
      <text x={box.leftPx} y={scale.bottomPx + 14}>
        {clockTime(scale.startMs + (scale.to - scale.from) * HOUR_MS, zone)}
      </text>
      {openFromMs !== null && rainSafeMs !== null && (
        <rect
          class="open-bar"
          x={barX}
          y={scale.y(scale.within(openFromMs))}
          width={5}
          height={Math.max(
            1,
            scale.y(scale.within(rainSafeMs)) - scale.y(scale.within(openFromMs)),
          )}
        />
      )}
      {rainSafeMs !== null && (
        <line
          class="rain-safe-line"
          x1={barX}
          x2={widthPx}
          y1={scale.y(scale.within(rainSafeMs))}
          y2={scale.y(scale.within(rainSafeMs))}
        />
      )}
    </g>
  );
}
