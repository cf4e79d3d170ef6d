import type { Point } from '../../outline/types.ts';
import type { OutlineLayout, SheetPart } from '../types.ts';

/** Something to be said of a place on the roof, or of the roof as a whole. */
export interface DrawnIssue {
  readonly at: Point | null;
  readonly message: string;
}

export interface DrawnPart {
  readonly part: SheetPart;
  /** Null = the roof alone. */
  readonly layout: OutlineLayout | null;
}

/** A section or bay of the work: its outline, and what it is called. */
export interface DrawnSection {
  readonly label: string;
  readonly points: readonly Point[];
}

export interface RoofDrawing {
  readonly title: string;
  readonly parts: readonly DrawnPart[];
  /** Compass direction of +y [deg]. */
  readonly northDeg: number;
  readonly sections?: readonly DrawnSection[];
  readonly issues?: readonly DrawnIssue[];
  /** Begins the ids in the drawing: letters, digits, hyphens; unlike any other drawing's on the page. */
  readonly id?: string;
}
