import type { SheetEdgeKind } from '../types.ts';

export interface EdgeStyle {
  readonly letter: string;
  readonly name: string;
  readonly stroke: number;
  /** Empty = unbroken. */
  readonly dash: string;
  /** Short strokes outside the line, as a wall is drawn. */
  readonly ticks: boolean;
}

/** Line and letter for each kind of edge; letters differ, so that no line style need be told apart. */
export const EDGE_STYLES: Readonly<Record<SheetEdgeKind, EdgeStyle>> = {
  gutter: { letter: 'G', name: 'gutter', stroke: 3.2, dash: '', ticks: false },
  verge: { letter: 'V', name: 'verge', stroke: 1.4, dash: '', ticks: false },
  kerb: { letter: 'K', name: 'kerb', stroke: 2, dash: '9 3', ticks: false },
  abutment: { letter: 'A', name: 'abutment', stroke: 1.8, dash: '', ticks: true },
  parapet: { letter: 'P', name: 'parapet', stroke: 2, dash: '10 3 2 3', ticks: false },
  boundary: { letter: 'B', name: 'boundary', stroke: 1.8, dash: '10 3 2 3 2 3', ticks: true },
  shared: { letter: 'S', name: 'next area', stroke: 1.2, dash: '2 3', ticks: false },
  'next-bay': { letter: 'N', name: 'next bay', stroke: 1.6, dash: '6 5', ticks: false },
  'earlier-bay': { letter: 'E', name: 'earlier bay', stroke: 1.2, dash: '4 3', ticks: false },
};
