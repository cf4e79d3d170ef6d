/** What comes of calling off or going, each forecast's crew deciding by the others' ends. */
export interface Decided {
  /** Mean over the forecasts. */
  readonly expectedCost: number;
  /** Share of the forecasts in which it is called off, 0..1. */
  readonly calledOffShare: number;
  /** Per forecast. */
  readonly calledOff: readonly boolean[];
}

/**
 * The cost-loss rule inside each forecast: call off where the mean cost of going, over the *other*
 * forecasts by their weight, is above the cost of calling off. What going then costs is the mean over all
 * futures that its past leaves open, by the same weights, its own among them: by its own alone, whoever
 * is caught would always have heard the least of being caught, and deciding would look worse than it is.
 * The weights are evened out so that every forecast has one say in all: where all go, the mean is theirs.
 * @param going    cost of going, by forecast; at least one, each 0 or more
 * @param weights  what forecasts m and n say to each other at m * count + n, 0..1, the same both ways;
 *   to itself each says 1, whatever stands there
 * @throws RangeError where there is no forecast, or a cost that is no number
 */
export function decideByOthers(
  going: readonly number[],
  weights: Float64Array,
  callOffCost: number,
): Decided {
  const count = going.length;
  if (count === 0 || weights.length !== count * count) {
    throw new RangeError(`weights (${weights.length}) must be ${count} x ${count}, 1 or more`);
  }
  for (const cost of [...going, callOffCost]) {
    if (!(cost >= 0)) throw new RangeError(`cost (${cost}) must be 0 or more`);
  }
  const says = oneSayEach(weights, count);
  let total = 0;
  const calledOff = going.map((own, m) => {
    const ofOthers = meanBy(says, going, m, false);
    const others = ofOthers ?? plainOthers(going, m) ?? own;
    const off = others > callOffCost;
    total += off ? callOffCost : meanBy(says, going, m, true)!;
    return off;
  });
  return {
    expectedCost: total / count,
    calledOffShare: calledOff.filter(Boolean).length / count,
    calledOff,
  };
}

/** Less than this of a say is nobody's. */
const LEAST_SAY = 1e-12;

function meanBy(
  says: Float64Array,
  going: readonly number[],
  m: number,
  withOwn: boolean,
): number | null {
  const count = going.length;
  let [sum, all] = [0, 0];
  for (let n = 0; n < count; n += 1) {
    if (n === m && !withOwn) continue;
    sum += says[m * count + n]! * going[n]!;
    all += says[m * count + n]!;
  }
  return all > LEAST_SAY ? sum / all : null;
}

/** Where nothing is known of whom it is like, the others count alike; null = there are none. */
function plainOthers(going: readonly number[], m: number): number | null {
  if (going.length === 1) return null;
  return (going.reduce((sum, cost) => sum + cost, 0) - going[m]!) / (going.length - 1);
}

const ROUNDS = 200;
const EVEN_ENOUGH = 1e-9;

/**
 * Rows and columns scaled alike until each adds up to 1.
 * @source R. Sinkhorn, Annals of Mathematical Statistics 35 (1964), 876-879
 */
function oneSayEach(weights: Float64Array, count: number): Float64Array {
  const at = (m: number, n: number): number => (m === n ? 1 : weights[m * count + n]!);
  const scale = new Float64Array(count).fill(1);
  for (let round = 0; round < ROUNDS; round += 1) {
    let worst = 0;
    const sums = scale.map((own, m) => {
      let sum = 0;
      for (let n = 0; n < count; n += 1) sum += at(m, n) * scale[n]!;
      worst = Math.max(worst, Math.abs(own * sum - 1));
      return sum;
    });
    if (worst < EVEN_ENOUGH) break;
    for (let m = 0; m < count; m += 1) scale[m] = Math.sqrt(scale[m]! / sums[m]!);
  }
  const out = new Float64Array(count * count);
  for (let m = 0; m < count; m += 1)
    for (let n = 0; n < count; n += 1) out[m * count + n] = scale[m]! * at(m, n) * scale[n]!;
  return out;
}
