import type { WorkItem } from '../../../src/contract/index.ts';
import { endOf, startOf, type WorkLine } from '../day/group-work.ts';
import { stageWords } from '../words/labels.ts';
import type { LaneBox } from './lane.ts';
import { packBars } from './pack-bars.ts';
import type { TimeScale } from './time-scale.ts';

interface Props {
  readonly box: LaneBox;
  readonly scale: TimeScale;
  readonly lines: readonly WorkLine[];
}

const BAR_PX = 9;
const LABEL_PX = 16;
/** Width of an average character at the label's size. */
const CHARACTER_PX = 7;

const itemsOf = (line: WorkLine): readonly WorkItem[] =>
  line.kind === 'one' ? [line.item] : line.items;

/** The number of the line in the order of work, with its stage where there is room. */
function label(line: WorkLine, roomPx: number): string {
  const number = String(line.number);
  const words = `${number} ${stageWords(itemsOf(line)[0]?.stage ?? '')}`;
  return words.length * CHARACTER_PX <= roomPx ? words : number;
}

/** The stages of the day: a black bar as long as the work, a dotted line for the wait before it. */
export function WorkLane({ box, scale, lines }: Props) {
  const bars = lines.map((line) => {
    const items = itemsOf(line);
    const waitMs = (items[0]?.wait?.minutes ?? 0) * 60_000;
    return {
      line,
      waitPx: scale.y(scale.within(startOf(items) - waitMs)),
      fromPx: scale.y(scale.within(startOf(items))),
      toPx: scale.y(scale.within(endOf(items))),
    };
  });
  const { columns, count } = packBars(bars, LABEL_PX);
  const columnPx = box.widthPx / count;
  return (
    <g class="work-lane">
      {bars.map(({ line, waitPx, fromPx, toPx }, index) => {
        const x = box.leftPx + (columns[index] ?? 0) * columnPx + 2;
        return (
          <g key={line.number}>
            {waitPx < fromPx && (
              <line
                class="wait-line"
                x1={x + BAR_PX / 2}
                x2={x + BAR_PX / 2}
                y1={waitPx}
                y2={fromPx}
              />
            )}
            <rect
              class="stage-bar"
              x={x}
              y={fromPx}
              width={BAR_PX}
              height={Math.max(2, toPx - fromPx)}
            />
            <text class="stage-label" x={x + BAR_PX + 3} y={fromPx + 11}>
              {label(line, columnPx - BAR_PX - 5)}
            </text>
          </g>
        );
      })}
    </g>
  );
}
