import type { WorkItem } from '../../contract/index.ts';

/** Half a sheet laid section by section: its items belong in one entry. */
export interface HalfSheet {
  /** 'sheet 1, first half' */
  readonly name: string;
  readonly sections: readonly Section[];
  /** In the order of the list. */
  readonly items: readonly WorkItem[];
}

export interface Section {
  /** Small steps laid one after the other before the last one is listed as a pair. */
  readonly front: WorkItem | null;
  readonly coat: WorkItem;
  readonly close: WorkItem;
}

export type Entry =
  | { readonly kind: 'item'; readonly item: WorkItem }
  | { readonly kind: 'half'; readonly half: HalfSheet };

const ID = /^field-(\d+)-(\d+)-(front|coat|close)$/;
/** A single pair reads better as its two items. */
const WORTH_GROUPING = 2;

/** The list as entries: each run of sections of one half sheet is one. */
export function entriesOf(items: readonly WorkItem[]): Entry[] {
  return runs(items).flatMap((run): Entry[] => {
    const half = halfOf(run);
    return half === null ? run.map((item) => ({ kind: 'item', item })) : [{ kind: 'half', half }];
  });
}

function runs(items: readonly WorkItem[]): WorkItem[][] {
  const found: WorkItem[][] = [];
  for (const item of items) {
    const half = ID.exec(item.id)?.[1];
    const last = found.at(-1);
    if (half !== undefined && last !== undefined && ID.exec(last[0]!.id)?.[1] === half)
      last.push(item);
    else found.push([item]);
  }
  return found;
}

function halfOf(run: readonly WorkItem[]): HalfSheet | null {
  const parts = new Map<string, Partial<Record<string, WorkItem>>>();
  for (const item of run) {
    const [, , number, part] = ID.exec(item.id) ?? [];
    if (number === undefined || part === undefined) return null;
    parts.set(number, { ...parts.get(number), [part]: item });
  }
  const sections: Section[] = [];
  for (const { front = null, coat, close } of parts.values()) {
    // Other work came in between coating and closing: told one by one, in order.
    if (coat === undefined || close === undefined) return null;
    sections.push({ front, coat, close });
  }
  if (sections.length < WORTH_GROUPING) return null;
  return { name: nameOf(sections[0]!.coat.title), sections, items: run };
}

/** 'Spread adhesive on the deck: sheet 1, first half, 1 of 2 (11.2 m²)' -> 'sheet 1, first half' */
function nameOf(title: string): string {
  const after = title.slice(title.indexOf(': ') + 1).trim();
  return after.replace(/ \([^)]*\)$/, '').replace(/, \d+ of \d+(, last step)?$/, '');
}
