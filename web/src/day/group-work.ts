import type { WorkItem } from '../../../src/contract/index.ts';

/** One section of a repeated stage: what is coated, and the closing that belongs to it. */
export interface Section {
  readonly coat: WorkItem | null;
  readonly close: WorkItem | null;
}

/** The day has one point of no return; later steps that cannot be undone only say so. */
export type NoReturn = 'first' | 'again' | 'no';

/** A line of the order of work: one item, or a stage repeated section by section. */
export type WorkLine =
  | {
      readonly kind: 'one';
      readonly number: number;
      readonly noReturn: NoReturn;
      readonly item: WorkItem;
    }
  | {
      readonly kind: 'sections';
      readonly number: number;
      readonly noReturn: NoReturn;
      readonly items: readonly WorkItem[];
      readonly sections: readonly Section[];
    };

/** Fewer than this and the items read better one by one. */
const WORTH_GROUPING = 4;

/** The oldest coat still open is the one a closing belongs to: crews close in the order they coat. */
function pairUp(items: readonly WorkItem[]): Section[] {
  const sections: { coat: WorkItem | null; close: WorkItem | null }[] = [];
  for (const item of items) {
    if (item.clock !== null) {
      sections.push({ coat: item, close: null });
      continue;
    }
    const waiting = sections.find((section) => section.coat !== null && section.close === null);
    if (waiting) waiting.close = item;
    else sections.push({ coat: null, close: item });
  }
  return sections;
}

function line(
  items: readonly WorkItem[],
  number: number,
  noReturn: (items: readonly WorkItem[]) => NoReturn,
): WorkLine[] {
  const sections = pairUp(items);
  const coats = sections.filter((section) => section.coat !== null).length;
  if (items.length >= WORTH_GROUPING && coats >= 2) {
    return [{ kind: 'sections', number, noReturn: noReturn(items), items, sections }];
  }
  return items.map((item, index) => ({
    kind: 'one',
    number: number + index,
    noReturn: noReturn([item]),
    item,
  }));
}

/** Runs of one stage become one line where they repeat coat and close. */
export function groupWork(items: readonly WorkItem[]): WorkLine[] {
  const lines: WorkLine[] = [];
  const first = items.find((item) => item.noReturn);
  const noReturn = (some: readonly WorkItem[]): NoReturn => {
    if (first !== undefined && some.includes(first)) return 'first';
    return some.some((item) => item.noReturn) ? 'again' : 'no';
  };
  let run: WorkItem[] = [];
  const endRun = () => {
    if (run.length > 0) lines.push(...line(run, lines.length + 1, noReturn));
    run = [];
  };
  for (const item of items) {
    if (run.length > 0 && run[0]?.stage !== item.stage) endRun();
    run.push(item);
  }
  endRun();
  return lines;
}

export const startOf = (items: readonly WorkItem[]): number =>
  Math.min(...items.map((item) => item.startMs));
export const endOf = (items: readonly WorkItem[]): number =>
  Math.max(...items.map((item) => item.endMs));

/** Each different sentence once, in the order it first appears. */
export const once = (sentences: readonly string[]): string[] => [...new Set(sentences)];
