import { Figures } from './Figures.tsx';
import { type Column, extent, knownRuns, type LaneBox, linePath, xScale } from './lane.ts';
import type { TimeScale } from './time-scale.ts';

interface Props {
  readonly box: LaneBox;
  readonly scale: TimeScale;
  readonly windMps: Column;
  readonly gustMps: Column;
  readonly windAtMostMps: number;
  readonly gustAtMostMps: number;
}

/** Mean wind as a full line and gusts as a broken one, each with its limit in the same stroke. */
export function WindLane({ box, scale, windMps, gustMps, windAtMostMps, gustAtMostMps }: Props) {
  const known = extent([windMps, gustMps], scale);
  const x = xScale(box, 0, Math.max(known?.[1] ?? 0, gustAtMostMps, windAtMostMps) + 1);
  const rounded = (value: number | null | undefined) =>
    value === null || value === undefined ? '?' : String(Math.round(value));
  const past = (hour: number) =>
    (windMps[hour] ?? 0) > windAtMostMps || (gustMps[hour] ?? 0) > gustAtMostMps;
  const limit = (value: number, stroke: string) => (
    <line class={stroke} x1={x(value)} x2={x(value)} y1={scale.topPx} y2={scale.bottomPx} />
  );
  return (
    <g>
      {limit(windAtMostMps, 'limit')}
      {limit(gustAtMostMps, 'limit limit-gust')}
      {knownRuns([windMps], scale).map((hours) => (
        <path key={`wind-${hours[0]}`} class="mid" d={linePath(windMps, hours, x, scale)} />
      ))}
      {knownRuns([gustMps], scale).map((hours) => (
        <path key={`gust-${hours[0]}`} class="gust" d={linePath(gustMps, hours, x, scale)} />
      ))}
      <Figures
        box={box}
        scale={scale}
        words={(hour) => `${rounded(windMps[hour])}/${rounded(gustMps[hour])}`}
        boxed={past}
      />
    </g>
  );
}
