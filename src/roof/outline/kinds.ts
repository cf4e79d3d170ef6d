import { OVERHANG_M, UPSTAND_TRIM_M } from '../practice.ts';
import type { PieceEdgeKind } from './types.ts';

/** Whether the sheet goes up at an edge. */
export function rises(kind: PieceEdgeKind): boolean {
  switch (kind) {
    case 'kerb':
    case 'abutment':
    case 'parapet':
    case 'boundary':
      return true;
    case 'gutter':
    case 'verge':
    case 'shared':
    case 'inner':
      return false;
  }
}

/** An edge of the roof, not one where the work goes on beyond it. */
export const isOuterEdge = (kind: PieceEdgeKind): boolean => kind !== 'shared' && kind !== 'inner';

export interface SheetAtEdge {
  /** Up the upstand, as high as it is [m]. */
  readonly upM: number;
  /** Over the edge and down; over the top of a kerb [m]. */
  readonly downM: number;
  /** Left standing and trimmed to the bar [m]. */
  readonly trimM: number;
}

/**
 * What the sheet is cut over the outline at an edge.
 * @source common practice: 100 mm over and down, also over a kerb; 50 mm trimmed at the top of an upstand
 */
export function sheetAtEdge(kind: PieceEdgeKind, upstandMm: number): SheetAtEdge {
  const upM = rises(kind) ? upstandMm / 1000 : 0;
  if (kind === 'kerb') return { upM, downM: OVERHANG_M, trimM: 0 };
  if (rises(kind)) return { upM, downM: 0, trimM: UPSTAND_TRIM_M };
  return { upM, downM: isOuterEdge(kind) ? OVERHANG_M : 0, trimM: 0 };
}
