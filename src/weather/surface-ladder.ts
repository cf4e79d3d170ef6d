import type { Layer, SurfaceSpec } from './types.ts';

/** Surface resistance of the inner face, heat flow upwards [m2K/W] (EN ISO 6946: 0.10). */
const INNER_RESISTANCE = 0.1;
/** Still to light air under a folded-back sheet [W/m2K] (from memory: 5-10 for both faces together). */
const UNDERSIDE_WM2K = 8;
/** The top element of a layer is half as deep as heat goes in this time [s]: one step of the grid. */
const FINEST_S = 300;
/** Each element is this much thicker than the one above: heat comes from the top and spreads as it sinks. */
const GROWTH = 2;

/**
 * The layers under a face as nodes with storage and the paths between them, and the part of an implicit
 * step that does not change from step to step already worked out. Node 0 is the face.
 */
export interface Ladder {
  readonly nodes: number;
  /** Heat a node holds [J/m2K]. */
  readonly holdsJm2K: Float64Array;
  /** From a node to the next, the last to what is below [W/m2K]. */
  readonly pathWm2K: Float64Array;
  /** holds / step [W/m2K]. */
  readonly storeWm2K: Float64Array;
  /** Backward elimination: 1 / pivot, and how far a node follows the one above it. */
  readonly inverse: Float64Array;
  readonly follows: Float64Array;
  /** What the face feels of all that lies under it, over one step [W/m2K]. */
  readonly underWm2K: number;
}

/** Depths of the elements a layer is cut into [m]: 1 for a sheet, 3 for a panel, 4 for insulation. */
function elementsM(layer: Layer): number[] {
  const perVolume = layer.densityKgM3 * layer.heatCapacityJkgK;
  const firstM = Math.sqrt((layer.conductivityWmK / perVolume) * FINEST_S) / 2;
  const count = Math.max(
    1,
    Math.ceil(Math.log(1 + ((GROWTH - 1) * layer.thicknessM) / firstM) / Math.log(GROWTH)),
  );
  const unit = (layer.thicknessM * (GROWTH - 1)) / (GROWTH ** count - 1);
  return Array.from({ length: count }, (_, i) => unit * GROWTH ** i);
}

/**
 * @param stepS length of the steps it will be used for
 * @throws Error on a surface without layers
 */
export function ladderOf(
  spec: Pick<SurfaceSpec, 'id' | 'layers' | 'below'>,
  stepS: number,
): Ladder {
  if (spec.layers.length === 0) throw new Error(`surface ${spec.id} has no layers`);
  const holds = [0];
  const path: number[] = [];
  for (const layer of spec.layers) {
    for (const depthM of elementsM(layer)) {
      const half = (depthM * layer.densityKgM3 * layer.heatCapacityJkgK) / 2;
      holds[holds.length - 1]! += half;
      path.push(layer.conductivityWmK / depthM);
      holds.push(half);
    }
  }
  path.push(spec.below.kind === 'room' ? 1 / INNER_RESISTANCE : UNDERSIDE_WM2K);

  const nodes = holds.length;
  const store = holds.map((joule) => joule / stepS);
  const inverse = new Float64Array(nodes);
  const follows = new Float64Array(nodes);
  for (let i = nodes - 1; i >= 1; i -= 1) {
    const below = i === nodes - 1 ? 0 : follows[i + 1]!;
    inverse[i] = 1 / (store[i]! + path[i - 1]! + path[i]! * (1 - below));
    follows[i] = path[i - 1]! * inverse[i]!;
  }
  return {
    nodes,
    holdsJm2K: Float64Array.from(holds),
    pathWm2K: Float64Array.from(path),
    storeWm2K: Float64Array.from(store),
    inverse,
    follows,
    underWm2K: path[0]! * (1 - (nodes > 1 ? follows[1]! : 0)),
  };
}

/** Temperatures that steady weather would leave between a face and what is below. */
export function settleBetween(
  ladder: Ladder,
  tempsC: Float64Array,
  faceC: number,
  belowC: number,
): void {
  let total = 0;
  for (let i = 0; i < ladder.nodes; i += 1) total += 1 / ladder.pathWm2K[i]!;
  let resistance = 0;
  for (let i = 0; i < ladder.nodes; i += 1) {
    tempsC[i] = faceC + ((belowC - faceC) * resistance) / total;
    resistance += 1 / ladder.pathWm2K[i]!;
  }
}

/**
 * A reading of the face: it takes the value read, and what lies under it moves along as it would have
 * had the difference stood for long, less the deeper it lies and not at all below.
 */
export function anchorFace(ladder: Ladder, tempsC: Float64Array, readC: number): void {
  const offK = readC - tempsC[0]!;
  let total = 0;
  for (let i = 0; i < ladder.nodes; i += 1) total += 1 / ladder.pathWm2K[i]!;
  let left = total;
  for (let i = 0; i < ladder.nodes; i += 1) {
    tempsC[i] = tempsC[i]! + (offK * left) / total;
    left -= 1 / ladder.pathWm2K[i]!;
  }
}
