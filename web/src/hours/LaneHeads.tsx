import type { Lane, LaneName } from './lay-lanes.ts';

interface Props {
  readonly lanes: Readonly<Record<LaneName, Lane>>;
  readonly bottomPx: number;
}

/** Names and units above the lanes, and the rules between them. */
export function LaneHeads({ lanes, bottomPx }: Props) {
  return (
    <g class="lane-heads">
      {Object.entries(lanes).map(([name, { box, head }]) =>
        box.widthPx === 0 || name === 'axis' ? null : (
          <g key={name}>
            <line class="lane-rule" x1={box.leftPx} x2={box.leftPx} y1={0} y2={bottomPx} />
            <text class="lane-name" x={box.leftPx + 3} y={13}>
              {head[0]}
            </text>
            <text class="lane-unit" x={box.leftPx + 3} y={29}>
              {head[1]}
            </text>
          </g>
        ),
      )}
    </g>
  );
}
