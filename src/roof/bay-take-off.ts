import type { RoofArea } from './outline/types.ts';
import type { OutlineLayout, SheetEdgeKind, SheetPart } from './sheets/types.ts';
import type { TakeOffOptions } from './take-off-options.ts';

/** An edge of one day's part of a roof, whatever its plan. */
export interface BayEdge {
  readonly id: string;
  /** As read on a list: 'low edge'. */
  readonly name: string;
  readonly kind: Exclude<SheetEdgeKind, 'shared'>;
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

/** One piece of a bay with its sheets, as it lies on the roof. */
export interface LaidPiece {
  readonly area: RoofArea;
  readonly part: SheetPart;
  readonly layout: OutlineLayout;
}

/** One laying day's part of a roof, in working order. */
export interface LayingBay {
  readonly number: number;
  readonly of: number;
  readonly areaM2: number;
  /** Outlets, pipes and rooflights on it. */
  readonly standing: number;
  /** The same for bays of one roof that are alike in shape, edges and what stands on them. */
  readonly alike: string;
  /** Edge to close for the night towards the next bay; 0 for the last bay. */
  readonly nightSealM: number;
  /** Pieces of the roof it is made of, with their sheets. */
  laid(options?: TakeOffOptions): readonly LaidPiece[];
  takeOff(options?: TakeOffOptions): BayTakeOff;
}
