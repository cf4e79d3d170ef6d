import type { LaidPiece, LayingBay } from './bay-take-off.ts';
import { ROLL_LENGTH_M, SHEET_WIDTHS_M } from './practice.ts';
import { cutList } from './sheets/cut-list.ts';
import type { OutlineLayout, RollCuts, RollOrder, Sheet, SheetLap } from './sheets/types.ts';
import type { TakeOffOptions } from './take-off-options.ts';

/** A piece of roof with its sheets, and the day it is laid on. */
export interface JobPiece extends LaidPiece {
  readonly bay: number;
}

/** All sheets of a job, counted through in working order. */
export interface JobSheets {
  readonly pieces: readonly JobPiece[];
  readonly sheets: readonly (Sheet & { readonly bay: number })[];
  readonly laps: readonly SheetLap[];
  readonly tJoints: number;
  /** Cut from whole rolls over the whole job, so that a rest of one day serves the next. */
  readonly rolls: readonly RollCuts[];
  readonly orders: readonly RollOrder[];
  readonly boughtM2: number;
  readonly cutM2: number;
  /** Bought and not laid: offcuts and what is trimmed away, as a share of what is bought [%]. */
  readonly wastePct: number;
  readonly notes: readonly string[];
}

/** The sheets of all laying days of a job. */
export function jobSheets(bays: readonly LayingBay[], options: TakeOffOptions = {}): JobSheets {
  const pieces: JobPiece[] = [];
  let sheetsBefore = 0;
  let lapsBefore = 0;
  for (const bay of bays) {
    for (const piece of bay.laid(options)) {
      const layout = countedOn(piece.layout, sheetsBefore, lapsBefore);
      pieces.push({ ...piece, layout, bay: bay.number });
      sheetsBefore += layout.sheets.length;
      lapsBefore += layout.laps.length;
    }
  }
  const sheets = pieces.flatMap(({ bay, layout }) =>
    layout.sheets.map((sheet) => ({ ...sheet, bay })),
  );
  const lengthM = options.rollLengthM ?? ROLL_LENGTH_M;
  const offers = (options.sheetWidthsM ?? SHEET_WIDTHS_M).map((widthM) => ({ widthM, lengthM }));
  const { rolls, orders } = cutList(sheets, offers);
  const boughtM2 = orders.reduce((sum, order) => sum + order.areaM2, 0);
  const laidM2 = pieces.reduce(
    (sum, { layout: { balance } }) => sum + balance.coveredM2 + balance.lapM2,
    0,
  );
  return {
    pieces,
    sheets,
    laps: pieces.flatMap(({ layout }) => layout.laps),
    tJoints: pieces.reduce((sum, { layout }) => sum + layout.tJoints.length, 0),
    rolls,
    orders,
    boughtM2,
    cutM2: sheets.reduce((sum, sheet) => sum + sheet.lengthM * sheet.widthM, 0),
    wastePct: 100 * (1 - laidM2 / boughtM2),
    notes: [...new Set(pieces.flatMap(({ layout }) => layout.notes))],
  };
}

function countedOn(layout: OutlineLayout, sheets: number, laps: number): OutlineLayout {
  if (sheets === 0) return layout;
  const on = (numbers: readonly number[]): number[] => numbers.map((n) => n + sheets);
  return {
    ...layout,
    sheets: layout.sheets.map((sheet) => ({ ...sheet, number: sheet.number + sheets })),
    laps: layout.laps.map((lap) => ({
      ...lap,
      number: lap.number + laps,
      over: on(lap.over),
      under: on(lap.under),
    })),
  };
}
