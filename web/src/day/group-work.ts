import type { WorkItem } from '../../../src/contract/index.ts';

/** One section of a repeated stage: what is coated, and the closing that belongs to it. */
export interface Section {
  readonly coat: WorkItem | null;
  readonly close: WorkItem | null;
}

/** The day has one point of no return; later steps that cannot be undone only say so. */
export type NoReturn = 'first' | 'again' | 'no';

interface LineBase {
  readonly number: number;
  readonly noReturn: NoReturn;
  readonly holdPoints: readonly string[];
  /** Said here for the first time. */
  readonly cautions: readonly string[];
  /** Said at a line above and still true here. */
  readonly cautionsAgain: readonly string[];
  readonly ifRain: readonly string[];
  /** The line shortly above that already says the same about rain, or null. */
  readonly ifRainAsFor: number | null;
}
export type OneLine = LineBase & { readonly kind: 'one'; readonly item: WorkItem };
export type SectionsLine = LineBase & {
  readonly kind: 'sections';
  readonly items: readonly WorkItem[];
  readonly sections: readonly Section[];
};
/** A line of the order of work: one item, or a stage repeated section by section. */
export type WorkLine = OneLine | SectionsLine;

/** Fewer than this and the items read better one by one. */
const WORTH_GROUPING = 4;

/** Coats in order, each with the closing that names it; a closing whose coat is elsewhere stands alone. */
function pairUp(items: readonly WorkItem[]): Section[] {
  const sections: { coat: WorkItem | null; close: WorkItem | null }[] = [];
  for (const item of items) {
    const own = sections.find(
      (section) => item.closes !== null && section.coat?.id === item.closes,
    );
    if (own !== undefined) own.close = item;
    else if (item.closes === null) sections.push({ coat: item, close: null });
    else sections.push({ coat: null, close: item });
  }
  return sections;
}

/** Items of one stage that follow each other. */
function runsOfStage(items: readonly WorkItem[]): WorkItem[][] {
  const runs: WorkItem[][] = [];
  for (const item of items) {
    const last = runs.at(-1);
    if (last?.[0]?.stage === item.stage) last.push(item);
    else runs.push([item]);
  }
  return runs;
}

/** A run stays whole where it repeats coat and close; else each item stands alone. */
function split(run: WorkItem[]): WorkItem[][] {
  const coats = run.filter((item) => item.clock !== null).length;
  return run.length >= WORTH_GROUPING && coats >= 2 ? [run] : run.map((item) => [item]);
}

/** The order of work as lines to show, numbered from 1. */
export function groupWork(items: readonly WorkItem[]): WorkLine[] {
  const first = items.find((item) => item.noReturn);
  const lines: WorkLine[] = [];
  const said = new Set<string>();
  for (const group of runsOfStage(items).flatMap(split)) {
    const [item] = group;
    if (item === undefined) continue;
    const ifRain = once(group.map((one) => one.ifRain).filter((words) => words !== ''));
    const above = lines.at(-1);
    const same = above !== undefined && above.ifRain.join() === ifRain.join();
    const cautions = once(group.flatMap((one) => one.cautions));
    const base: LineBase = {
      number: lines.length + 1,
      holdPoints: once(group.flatMap((one) => one.holdPoints)),
      cautions: cautions.filter((caution) => !said.has(caution)),
      cautionsAgain: cautions.filter((caution) => said.has(caution)),
      noReturn: noReturnOf(group, first),
      ifRain,
      ifRainAsFor: same ? (above.ifRainAsFor ?? above.number) : null,
    };
    for (const caution of cautions) said.add(caution);
    lines.push(
      group.length === 1
        ? { ...base, kind: 'one', item }
        : { ...base, kind: 'sections', items: group, sections: pairUp(group) },
    );
  }
  return lines;
}

function noReturnOf(group: readonly WorkItem[], first: WorkItem | undefined): NoReturn {
  if (first !== undefined && group.includes(first)) return 'first';
  return group.some((item) => item.noReturn) ? 'again' : 'no';
}

export const startOf = (items: readonly WorkItem[]): number =>
  Math.min(...items.map((item) => item.startMs));
export const endOf = (items: readonly WorkItem[]): number =>
  Math.max(...items.map((item) => item.endMs));

/** Each different sentence once, in the order it first appears. */
export const once = (sentences: readonly string[]): string[] => [...new Set(sentences)];
