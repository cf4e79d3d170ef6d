import type { LayoutFigures, OutlineLayout } from './types.ts';

/** What turning, shifting or fixing changed; above 0 = more than before. */
export interface LayoutChange extends LayoutFigures {
  readonly boughtM2: number;
  readonly wastePct: number;
}

/**
 * One layout against another, figure by figure: `after` less `before`.
 */
export function compareLayouts(before: OutlineLayout, after: OutlineLayout): LayoutChange {
  const more = (of: (layout: OutlineLayout) => number): number => of(after) - of(before);
  return {
    lapM: more((l) => l.figures.lapM),
    sideLapM: more((l) => l.figures.sideLapM),
    endLapM: more((l) => l.figures.endLapM),
    joinM: more((l) => l.figures.joinM),
    runOffM2: more((l) => l.figures.runOffM2),
    rollRestM2: more((l) => l.figures.rollRestM2),
    sheets: more((l) => l.figures.sheets),
    tJoints: more((l) => l.figures.tJoints),
    cost: more((l) => l.figures.cost),
    boughtM2: more((l) => l.balance.boughtM2),
    wastePct: more((l) => l.balance.wastePct),
  };
}
