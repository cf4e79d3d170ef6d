import { Figures } from './Figures.tsx';
import { type Column, type LaneBox, middle, xScale } from './lane.ts';
import type { TimeScale } from './time-scale.ts';

interface Props {
  readonly box: LaneBox;
  readonly scale: TimeScale;
  /** 0..100, null = unknown. */
  readonly percents: Column;
  readonly fill: 'rain' | 'wet';
}

/** A share of the forecasts, hour by hour. */
export function BarLane({ box, scale, percents, fill }: Props) {
  const x = xScale(box, 0, 100);
  const hours = Array.from({ length: scale.to - scale.from }, (_, i) => scale.from + i);
  return (
    <g>
      {hours.map((hour) => {
        const value = percents[hour] ?? null;
        if (value === null || value === 0) return null;
        return (
          <rect
            key={hour}
            class={`bar-${fill}`}
            x={x(0)}
            y={middle(hour, scale) - scale.rowPx / 2 + 2}
            width={Math.max(1, x(value) - x(0))}
            height={scale.rowPx - 4}
          />
        );
      })}
      <Figures
        box={box}
        scale={scale}
        words={(hour) => {
          const value = percents[hour] ?? null;
          return value === null ? '?' : String(Math.round(value));
        }}
        boxed={() => false}
      />
    </g>
  );
}
