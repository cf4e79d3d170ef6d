import { type LaneBox, middle } from './lane.ts';
import type { TimeScale } from './time-scale.ts';

interface Props {
  readonly box: LaneBox;
  readonly scale: TimeScale;
  readonly words: (hour: number) => string;
  /** Past a limit: the figure stands in a box. */
  readonly boxed: (hour: number) => boolean;
}

/** The hour's figure at the right of its lane. */
export function Figures({ box, scale, words, boxed }: Props) {
  const right = box.leftPx + box.widthPx - 2;
  const hours = Array.from({ length: scale.to - scale.from }, (_, i) => scale.from + i);
  return (
    <g class="figures">
      {hours.map((hour) => {
        const y = middle(hour, scale);
        return (
          <g key={hour}>
            {boxed(hour) && (
              <rect
                class="past-limit"
                x={right - box.figurePx + 1}
                y={y - 10}
                width={box.figurePx}
                height={20}
              />
            )}
            <text x={right - 3} y={y + 4} text-anchor="end">
              {words(hour)}
            </text>
          </g>
        );
      })}
    </g>
  );
}
