/**
 * Sheets for a roof area of any outline. Plan coordinates as in the outline's own types: metres,
 * x to the right, y up the page; plan directions in degrees, 0 = +y, 90 = +x.
 */
import type { Feature, OutlineEdgeKind, Point } from '../outline/types.ts';

/**
 * next-bay = an inner cut where the sheet stops tonight and laps onto tomorrow's; earlier-bay = an
 * inner cut where it joins one that is already down.
 */
export type SheetEdgeKind = OutlineEdgeKind | 'next-bay' | 'earlier-bay';

export interface SheetEdge {
  readonly kind: SheetEdgeKind;
  /** Height the sheet goes up [mm]; 0 where it does not. */
  readonly upstandMm: number;
  /**
   * Of next-bay and earlier-bay, how far past the line the lap begins [m], 0 where left out: the earlier
   * sheet runs on over it, the later one begins there. Keeps laps out of a valley or off a fold.
   */
  readonly runOnM?: number;
}

/** What is sheeted: an area of a roof, or the part of one laid in a day. Every `RoofArea` is one. */
export interface SheetPart {
  /** Outline, counter-clockwise, without a repeated last point. */
  readonly points: readonly Point[];
  /** Edge i runs from point i to the next. */
  readonly edges: readonly SheetEdge[];
  readonly fallPlanDeg: number;
  /** 0 = flat: then no lap has an upper side. */
  readonly fallDeg: number;
  readonly features: readonly Feature[];
}

export interface RollOffer {
  readonly widthM: number;
  /** Length of a whole roll, hence of the longest piece [m]. */
  readonly lengthM: number;
}

/** What a layout costs, in square metres of sheet, so that laps, waste and awkward places can be weighed. */
export interface LayoutWeights {
  /** Sheet run off the roll [m2 per m2]. */
  readonly sheet: number;
  /** Rests of rolls but the longest: back to the store, where some of it is never used [m2 per m2]. */
  readonly rollRest: number;
  /** A metre of lap: cleaning, primer, tape, rolling, edge sealant, and a place that can leak. */
  readonly lapPerM: number;
  /** The patch where three sheets meet. */
  readonly tJoint: number;
  /** Handling one more piece. */
  readonly piece: number;
  /** A metre of side lap closer to a parallel edge than it should be. */
  readonly nearEdgePerM: number;
  /** A side lap running into the roof's edge close to a corner of the outline. */
  readonly nearCorner: number;
  /** A side lap passing close to an outlet. */
  readonly nearOutlet: number;
}

/** A sheet that must stay where it is, in the layout's own axes: `startM` across, from and to along. */
export interface FixedSheet {
  readonly startM: number;
  readonly widthM: number;
  readonly rollWidthM: number;
  readonly fromM: number;
  readonly toM: number;
}

/** What the user has set; the rest is searched. */
export interface LayoutChoices {
  /** Plan direction in which rolls run out [deg]; 20 and 200 are the same. */
  readonly rollsRunDeg?: number;
  /** How much narrower than the roll the first course is, so how far all courses move [m], at least 0. */
  readonly shiftM?: number;
  /** Needs `rollsRunDeg`. */
  readonly sheets?: readonly FixedSheet[];
}

export interface SheetQuestion {
  readonly part: SheetPart;
  readonly rolls: readonly RollOffer[];
  /** Width of side laps [m]. */
  readonly lapM: number;
  /** Width of end laps [m]. */
  readonly endLapM: number;
  /** Least distance along the roll between end laps of neighbouring courses [m]. */
  readonly staggerM: number;
  readonly weights: LayoutWeights;
  readonly choices: LayoutChoices;
  /** Where people and material come up: courses without an upper side are laid towards it. */
  readonly access: Point | null;
}

/** One piece of membrane. Numbered in working order: a later sheet lies on an earlier one. */
export interface Sheet extends FixedSheet {
  readonly number: number;
  /** 1 is laid first. */
  readonly course: number;
  readonly lengthM: number;
  /** The rectangle cut from the roll, in plan. */
  readonly corners: readonly [Point, Point, Point, Point];
  /** What is left of the rectangle once trimmed to the roof and its allowances [m2]. */
  readonly shapeM2: number;
}

export interface SheetLap {
  readonly number: number;
  /** side = between courses; end = within a course; join = with the sheet of an earlier part. */
  readonly kind: 'side' | 'end' | 'join';
  readonly lengthM: number;
  /** Overlap within the roof and its allowances [m2]; the ends of an end lap lie in side laps too. */
  readonly areaM2: number;
  readonly corners: readonly [Point, Point, Point, Point];
  /** Numbers of the sheets on top; none = the earlier part's sheet is on top. */
  readonly over: readonly number[];
  /** Numbers of the sheets below; none = the earlier part's sheet is below. */
  readonly under: readonly number[];
}

/** A piece as it is cut from a roll: `atM` along the roll, `acrossM` from its edge. */
export interface Cut {
  readonly sheet: number;
  readonly atM: number;
  readonly acrossM: number;
  readonly lengthM: number;
  readonly widthM: number;
}

export interface RollCuts {
  readonly number: number;
  readonly widthM: number;
  readonly lengthM: number;
  readonly cuts: readonly Cut[];
  /** Full-width rest at the end of the roll [m]. */
  readonly restM: number;
}

/** Whole rolls to buy of one width. */
export interface RollOrder {
  readonly widthM: number;
  readonly lengthM: number;
  readonly count: number;
  readonly areaM2: number;
}

/**
 * bought = cut + offcuts; cut = covered + laps + trimmings;
 * covered = net + overhang + turn-ups + trim + next bay + corners + cut-outs. All [m2].
 */
export interface OutlineBalance {
  readonly boughtM2: number;
  readonly offcutsM2: number;
  readonly cutM2: number;
  readonly coveredM2: number;
  readonly lapM2: number;
  readonly trimmingsM2: number;
  /** The outline less its rooflights. */
  readonly netM2: number;
  /** Dressed down at gutters and verges. */
  readonly overhangM2: number;
  readonly turnUpM2: number;
  /** Over the height of upstands, trimmed to the bar. */
  readonly trimM2: number;
  /** On past next bays and areas, less what theirs covers of this part. */
  readonly nextBayM2: number;
  /** Where two allowances meet: folded or cut away at an outer corner (above 0), missing at an inner (below 0). */
  readonly cornersM2: number;
  /** Sheet laid over a rooflight's opening, cut and turned up its kerb. */
  readonly cutOutsM2: number;
  /** Offcuts and trimmings as a share of what is bought [%]. */
  readonly wastePct: number;
  /** Full-width rests of rolls that go back to the store; part of the offcuts. */
  readonly rollEndsM2: number;
}

export interface LayoutFigures {
  readonly lapM: number;
  readonly sideLapM: number;
  readonly endLapM: number;
  readonly joinM: number;
  /** Sheet run off rolls before offcuts are used again [m2]. */
  readonly runOffM2: number;
  /** Whole rolls bought, less what is run off them and the longest rest, as good as a new roll [m2]. */
  readonly rollRestM2: number;
  readonly sheets: number;
  readonly tJoints: number;
  /** The weighed sum that the search makes least [m2 of sheet]. */
  readonly cost: number;
}

export interface OutlineLayout {
  readonly rollsRunDeg: number;
  /** Plan directions of the axes that `FixedSheet` is in: along the roll, and across the courses. */
  readonly axes: { readonly along: Point; readonly across: Point };
  readonly sheets: readonly Sheet[];
  readonly laps: readonly SheetLap[];
  readonly tJoints: readonly Point[];
  readonly rolls: readonly RollCuts[];
  readonly orders: readonly RollOrder[];
  readonly balance: OutlineBalance;
  readonly figures: LayoutFigures;
  /** Outline and allowances, as sheeted: closed loops whose union is covered; holes run clockwise. */
  readonly covered: readonly (readonly Point[])[];
  /** Rules that could not be kept, in plain sentences. */
  readonly notes: readonly string[];
  /** False when the roof is so large that only the likelier course positions were tried. */
  readonly searchedAll: boolean;
}
