/** A bar before it has a place: from and to in pixels down the page. */
export interface Bar {
  readonly fromPx: number;
  readonly toPx: number;
}

/**
 * Give each bar the first free column, in order of their starts. A short bar keeps as much room as
 * its label needs.
 * @returns the column of each bar, and how many columns there are
 */
export function packBars(
  bars: readonly Bar[],
  labelPx: number,
): { columns: number[]; count: number } {
  const freeFromPx: number[] = [];
  const columns = bars.map((bar) => {
    let column = freeFromPx.findIndex((free) => free <= bar.fromPx + 0.5);
    if (column === -1) column = freeFromPx.length;
    freeFromPx[column] = Math.max(bar.toPx, bar.fromPx + labelPx);
    return column;
  });
  return { columns, count: Math.max(1, freeFromPx.length) };
}
