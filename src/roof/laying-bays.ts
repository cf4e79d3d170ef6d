import { splitIntoBays } from './bays.ts';
import {
  cornersToPatch,
  sheetTouches,
  sideLengthM,
  type TakeOffOptions,
  takeOff,
} from './take-off.ts';
import type { BayEdgeKind, EdgeSide, Roof, RoofPart, SheetPiece } from './types.ts';

/** An edge of one day's part of a roof, whatever its plan. */
export interface BayEdge {
  readonly id: string;
  /** As read on a list: 'low edge'. */
  readonly name: string;
  readonly kind: BayEdgeKind;
  readonly lengthM: number;
  /** Height the sheet goes up [mm]; 0 where it does not. */
  readonly upstandMm: number;
}

/** A corner that takes a patch. */
export interface BayCorner {
  readonly name: string;
  /** Ids of the edges that meet. */
  readonly edges: readonly [string, string];
}

/** A sheet of the bay, bonded half by half. */
export interface BaySheet {
  readonly number: number;
  readonly cutM2: number;
  readonly lengthM: number;
  readonly widthM: number;
  /** Ids of the edges that each half reaches. */
  readonly halves: readonly [readonly string[], readonly string[]];
}

export interface BayLap {
  readonly number: number;
  /** side = between courses; end = within a course; join = onto the sheet of an earlier bay. */
  readonly kind: 'side' | 'end' | 'join';
  readonly lengthM: number;
  readonly sheets: readonly number[];
}

/** A rooflight or another kerb that stands through the sheet. */
export interface BayKerb {
  readonly name: string;
  /** Length round it, and the height the sheet goes up it. */
  readonly aroundM: number;
  readonly upstandMm: number;
  readonly corners: number;
}

/** What one day's part of a roof asks of the crew. All areas and lengths net, before waste. */
export interface BayTakeOff {
  readonly areaM2: number;
  /** Inside the perimeter strip and outside laps. */
  readonly fieldM2: number;
  readonly edges: readonly BayEdge[];
  readonly corners: readonly BayCorner[];
  readonly sheets: readonly BaySheet[];
  readonly laps: readonly BayLap[];
  readonly tJoints: number;
  readonly outlets: number;
  readonly pipes: number;
  readonly kerbs: readonly BayKerb[];
  readonly warnings: readonly string[];
}

/** One laying day's part of a roof, in working order. */
export interface LayingBay {
  readonly number: number;
  readonly of: number;
  readonly areaM2: number;
  /** Edge to close for the night towards the next bay; 0 for the last bay. */
  readonly nightSealM: number;
  takeOff(options?: TakeOffOptions): BayTakeOff;
}

/**
 * The laying days of a roof in working order.
 * @param maxBayM2 largest bay [m2], above 0
 * @throws RangeError on a size outside its range, NaN included
 */
export function layingBays(roof: Roof, maxBayM2: number): readonly LayingBay[] {
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
      kind: part.edges[side],
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
