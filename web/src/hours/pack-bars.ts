/** A bar before it has a place: from and to in pixels down the page. */
export interface Bar {
  readonly fromPx: number;
  readonly toPx: number;
}

/**
 * Give each bar the first free column, in order of their starts.
 * @returns the column of each bar, and how many columns there are
 */
export function packBars(bars: readonly Bar[]): { columns: number[]; count: number } {
  const freeFromPx: number[] = [];
  const columns = bars.map((bar) => {
    let column = freeFromPx.findIndex((free) => free <= bar.fromPx + 0.5);
    if (column === -1) column = freeFromPx.length;
    freeFromPx[column] = bar.toPx;
    return column;
  });
  return { columns, count: Math.max(1, freeFromPx.length) };
}

/**
 * Bars that start closer together than a label is high share one label.
 * @returns indexes of the bars of each label, in order
 */
export function shareLabels(bars: readonly Bar[], labelPx: number): number[][] {
  const groups: number[][] = [];
  let topPx = Number.NEGATIVE_INFINITY;
  for (const [index, bar] of bars.entries()) {
    const last = groups.at(-1);
    if (last && bar.fromPx - topPx < labelPx) {
      last.push(index);
      continue;
    }
    groups.push([index]);
    topPx = bar.fromPx;
  }
  return groups;
}
