import type { WorkItem } from '../../../src/contract/index.ts';
import { endOf, startOf, type WorkLine } from './group-work.ts';
import { partName } from './site/parts.ts';

/** A stretch of the list that is done before the next: getting ready, a half sheet, what follows. */
export interface Chapter {
  readonly name: string;
  readonly lines: readonly WorkLine[];
  readonly startMs: number;
  readonly endMs: number;
}

export const itemsOf = (line: WorkLine): readonly WorkItem[] =>
  line.kind === 'one' ? [line.item] : line.items;

const FINISHING: ReadonlySet<string> = new Set(['edge-fixings', 'sealant', 'check']);

const stageOf = (line: WorkLine): string => itemsOf(line)[0]?.stage ?? '';

/** 'Fold back sheet 1, first half' gives 'Sheet 1, first half'. */
function halfSheetName(line: WorkLine): string {
  const words = partName(itemsOf(line)[0]?.title ?? '').replace(/^Fold back (the )?/, '');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/**
 * The list in chapters, every line in one, in order: up to the first folding back, from one folding back
 * to the next, then details until the first trim, then the rest.
 */
export function chaptersOf(lines: readonly WorkLine[]): Chapter[] {
  const lastField = lines.findLastIndex((line) => stageOf(line) === 'field');
  const names: string[] = [];
  const groups: WorkLine[][] = [];
  const begin = (name: string) => {
    if (names.at(-1) === name) return;
    names.push(name);
    groups.push([]);
  };
  lines.forEach((line, index) => {
    const stage = stageOf(line);
    if (names.length === 0) begin(stage === 'fold-back' ? halfSheetName(line) : 'Getting ready');
    else if (stage === 'fold-back') begin(halfSheetName(line));
    else if (index > lastField && FINISHING.has(stage)) begin('Finishing');
    else if (index > lastField && lastField >= 0 && names.at(-1) !== 'Finishing')
      begin('Laps, edges and details');
    groups.at(-1)?.push(line);
  });
  return groups.map((group, index) => {
    const items = group.flatMap(itemsOf);
    return {
      name: names[index] ?? '',
      lines: group,
      startMs: startOf(items),
      endMs: endOf(items),
    };
  });
}

/** The first line not yet over by the list; null = the day is over, or another day is looked at. */
export function lineAt(lines: readonly WorkLine[], nowMs: number | null): WorkLine | null {
  if (nowMs === null) return null;
  return lines.find((line) => endOf(itemsOf(line)) > nowMs) ?? null;
}
