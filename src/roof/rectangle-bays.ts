import type { BayTakeOff, LayingBay } from './bay-take-off.ts';
import { splitIntoBays } from './bays.ts';
import {
  cornersToPatch,
  sheetTouches,
  sideLengthM,
  type TakeOffOptions,
  takeOff,
} from './take-off.ts';
import type { EdgeSide, Roof, RoofPart, SheetPiece } from './types.ts';

/** The laying days of a rectangular roof given by its sizes. */
export function rectangleBays(roof: Roof, maxBayM2: number): readonly LayingBay[] {
  return splitIntoBays(roof, maxBayM2).map((bay) => ({
    number: bay.number,
    of: bay.of,
    areaM2: bay.areaM2,
    nightSealM: bay.nightSealM,
    takeOff: (options) => rectangleTakeOff(bay.part, options),
  }));
}

const SIDES: readonly EdgeSide[] = ['high', 'left', 'right', 'low'];

const SIDE_NAMES: Readonly<Record<EdgeSide, string>> = {
  low: 'low edge',
  high: 'high edge',
  left: 'left edge',
  right: 'right edge',
};

/** Rooflight kerb of a rectangular roof taken as 1 m square: 4 m of upstand and 4 corners. Common practice. */
const KERB_M = 4;

function rectangleTakeOff(part: RoofPart, options?: TakeOffOptions): BayTakeOff {
  const t = takeOff(part, options);
  return {
    areaM2: t.areaM2,
    fieldM2: t.fieldM2,
    edges: SIDES.map((side) => ({
      id: side,
      name: SIDE_NAMES[side],
      kind: part.edges[side] === 'eaves' ? 'gutter' : part.edges[side],
      lengthM: sideLengthM(part, side),
      upstandMm: part.edges[side] === 'abutment' ? part.upstandMm : 0,
    })),
    corners: cornersToPatch(part).map(([a, b]) => ({
      name: `${SIDE_NAMES[a]} / ${SIDE_NAMES[b]}`,
      edges: [a, b],
    })),
    sheets: t.sheets.map((sheet) => ({
      number: sheet.number,
      cutM2: sheet.lengthM * sheet.widthM,
      lengthM: sheet.lengthM,
      widthM: sheet.widthM,
      halves: [touched(part, sheet, 1), touched(part, sheet, 2)],
    })),
    laps: t.laps,
    tJoints: t.tJoints,
    outlets: part.outlets,
    pipes: part.pipes,
    kerbs: Array.from({ length: part.rooflights }, (_, i) => ({
      name: part.rooflights === 1 ? 'rooflight' : `rooflight ${i + 1}`,
      aroundM: KERB_M,
      upstandMm: part.upstandMm,
      corners: 4,
    })),
    warnings: t.warnings,
  };
}

function touched(part: RoofPart, sheet: SheetPiece, half: 1 | 2): EdgeSide[] {
  const up = sheet.runs === 'up-the-fall';
  const shiftM = half === 1 ? 0 : sheet.lengthM / 2;
  const piece = {
    ...sheet,
    lengthM: sheet.lengthM / 2,
    xM: sheet.xM + (up ? 0 : shiftM),
    yM: sheet.yM + (up ? shiftM : 0),
  };
  return SIDES.filter((side) => sheetTouches(piece, part, side));
}
