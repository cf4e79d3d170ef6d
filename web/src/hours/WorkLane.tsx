import type { WorkItem } from '../../../src/contract/index.ts';
import { endOf, startOf, type WorkLine } from '../day/group-work.ts';
import { stageWords } from '../words/labels.ts';
import type { LaneBox } from './lane.ts';
import { packBars, shareLabels } from './pack-bars.ts';
import type { TimeScale } from './time-scale.ts';

interface Props {
  readonly box: LaneBox;
  readonly scale: TimeScale;
  readonly lines: readonly WorkLine[];
}

const BAR_PX = 9;
const COLUMN_PX = 12;
const LABEL_PX = 14;
/** Width of an average character at the label's size. */
const CHARACTER_PX = 7;

const itemsOf = (line: WorkLine): readonly WorkItem[] =>
  line.kind === 'one' ? [line.item] : line.items;

/** '5 Field', or '2–6' for lines too close together, or the number alone where room is short. */
function label(lines: readonly WorkLine[], roomPx: number): string {
  const [first, last] = [lines[0], lines.at(-1)];
  if (!first || !last) return '';
  if (first !== last) return `${first.number}–${last.number}`;
  const words = `${first.number} ${stageWords(itemsOf(first)[0]?.stage ?? '')}`;
  return words.length * CHARACTER_PX <= roomPx ? words : String(first.number);
}

/** The stages of the day: a black bar as long as the work, a dotted line for the wait before it. */
export function WorkLane({ box, scale, lines }: Props) {
  const bars = lines.map((line) => {
    const items = itemsOf(line);
    const waitMs = (items[0]?.wait?.minutes ?? 0) * 60_000;
    const fromPx = scale.y(scale.within(startOf(items)));
    return {
      waitPx: scale.y(scale.within(startOf(items) - waitMs)),
      fromPx,
      toPx: Math.max(fromPx + 2, scale.y(scale.within(endOf(items)))),
    };
  });
  const { columns, count } = packBars(bars);
  const labelX = box.leftPx + count * COLUMN_PX + 3;
  return (
    <g class="work-lane">
      {bars.map(({ waitPx, fromPx, toPx }, index) => {
        const x = box.leftPx + (columns[index] ?? 0) * COLUMN_PX + 2;
        const middle = x + BAR_PX / 2;
        return (
          <g key={lines[index]?.number}>
            {waitPx < fromPx && (
              <line class="wait-line" x1={middle} x2={middle} y1={waitPx} y2={fromPx} />
            )}
            <rect class="stage-bar" x={x} y={fromPx} width={BAR_PX} height={toPx - fromPx - 0.8} />
          </g>
        );
      })}
      {shareLabels(bars, LABEL_PX).map((group) => (
        <text
          key={group[0]}
          class="stage-label"
          x={labelX}
          y={(bars[group[0] ?? 0]?.fromPx ?? 0) + 10}
        >
          {label(
            group.flatMap((index) => lines[index] ?? []),
            box.leftPx + box.widthPx - labelX,
          )}
        </text>
      ))}
    </g>
  );
}
