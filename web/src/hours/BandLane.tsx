import { Figures } from './Figures.tsx';
import {
  bandPath,
  type Column,
  extent,
  knownRuns,
  type LaneBox,
  linePath,
  xScale,
} from './lane.ts';
import type { TimeScale } from './time-scale.ts';

interface Props {
  readonly box: LaneBox;
  readonly scale: TimeScale;
  readonly band: { readonly low: Column; readonly mid: Column; readonly high: Column };
  readonly atLeast: number | null;
  readonly atMost: number | null;
}

/** A limit further from the weather than this is named in words only, or it would flatten the band. */
const WORTH_DRAWING_WITHIN = 6;

/** Low, middle and high of the forecasts against a lower and perhaps an upper limit. */
export function BandLane({ box, scale, band, atLeast, atMost }: Props) {
  const known = extent([band.low, band.mid, band.high], scale);
  const words = (hour: number) => {
    const value = band.mid[hour] ?? null;
    return value === null ? '?' : String(Math.round(value));
  };
  const past = (hour: number) => {
    const [low, high] = [band.low[hour] ?? null, band.high[hour] ?? null];
    const tooLow = atLeast !== null && low !== null && low < atLeast;
    return tooLow || (atMost !== null && high !== null && high > atMost);
  };
  if (known === null) return <Figures box={box} scale={scale} words={words} boxed={past} />;
  const limits = [atLeast, atMost].filter(
    (limit): limit is number =>
      limit !== null &&
      limit > known[0] - WORTH_DRAWING_WITHIN &&
      limit < known[1] + WORTH_DRAWING_WITHIN,
  );
  const x = xScale(box, Math.min(known[0], ...limits) - 1, Math.max(known[1], ...limits) + 1);
  return (
    <g>
      {knownRuns([band.low, band.high], scale).map((hours) => (
        <path
          key={`band-${hours[0]}`}
          class="band"
          d={bandPath(band.low, band.high, hours, x, scale)}
        />
      ))}
      {knownRuns([band.mid], scale).map((hours) => (
        <path key={`mid-${hours[0]}`} class="mid" d={linePath(band.mid, hours, x, scale)} />
      ))}
      {limits.map((limit) => (
        <line
          key={limit}
          class="limit"
          x1={x(limit)}
          x2={x(limit)}
          y1={scale.topPx}
          y2={scale.bottomPx}
        />
      ))}
      <Figures box={box} scale={scale} words={words} boxed={past} />
    </g>
  );
}
