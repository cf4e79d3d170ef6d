/**
 * Range guards. Every public function of physics states a range; these check it.
 */

/**
 * Passes a finite number inside a closed range through, and throws on anything else, NaN included.
 * @param name  the argument's name with its unit, e.g. `relHumPct`
 * @throws RangeError naming argument, value and accepted range
 */
export function inRange(name: string, value: number, low: number, high: number): number {
  if (!(value >= low && value <= high)) {
    throw new RangeError(`${name} (${value}) must be in ${low}..${high}`);
  }
  return value;
}
