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
 * The cost-loss rule inside each forecast: call off where the mean cost of going, over the other
 * forecasts by their weight, is above the cost of calling off. What the day then costs is the
 * forecast's own. Where nothing carries weight the others all count alike; one alone counts itself.
 * @param going    cost of going, by forecast; at least one, each 0 or more
 * @param weights  what forecast n says to m at m * count + n, 0 or more; its own is passed over
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
  const calledOff = going.map((own, m) => {
    const expected = count === 1 ? own : expectedBy(going, weights, m);
    return expected > callOffCost;
  });
  const total = going.reduce((sum, cost, m) => sum + (calledOff[m]! ? callOffCost : cost), 0);
  return {
    expectedCost: total / count,
    calledOffShare: calledOff.filter(Boolean).length / count,
    calledOff,
  };
}

function expectedBy(going: readonly number[], weights: Float64Array, m: number): number {
  const count = going.length;
  let [cost, all, plain] = [0, 0, 0];
  for (let n = 0; n < count; n += 1) {
    if (n === m) continue;
    const weight = weights[m * count + n]!;
    cost += weight * going[n]!;
    all += weight;
    plain += going[n]!;
  }
  return all > 0 ? cost / all : plain / (count - 1);
}
