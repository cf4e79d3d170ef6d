import type { SheetPart } from '../../src/roof/sheets/index.ts';

/** Round a yard: 1,997 m2, twelve edges, 60 outlets, pipes and rooflights. */
export const LARGE_ROOF: SheetPart = {
  points: [
    [0, 0],
    [60, 0],
    [60, 42],
    [45, 42],
    [45, 39],
    [40, 39],
    [40, 18],
    [20, 18],
    [20, 40],
    [12, 40],
    [12, 41],
    [0, 41],
  ],
  edges: (['gutter', 'parapet', 'parapet', 'verge', 'parapet', 'abutment'] as const).flatMap(
    (kind) => {
      const upstandMm = kind === 'gutter' || kind === 'verge' ? 0 : 200;
      return [
        { kind, upstandMm },
        { kind, upstandMm },
      ];
    },
  ),
  fallDeg: 1.4,
  fallPlanDeg: 180,
  features: Array.from({ length: 60 }, (_, i) => {
    const kind = (['outlet', 'pipe', 'rooflight', 'pipe', 'rooflight'] as const)[i % 5]!;
    const x = 2.5 + (i % 12) * 5;
    const y = 2 + Math.floor(i / 12) * 3.4;
    const sizeM = kind === 'rooflight' ? ([1.2, 1] as const) : ([0.11, 0.11] as const);
    return { id: `f${i}`, kind, at: [x, y] as const, sizeM, upstandMm: 150 };
  }),
};
