/**
 * How far each formula lies from the values it is checked against. Reads the same rows as
 * tests/published, so the table cannot drift from the tests.
 */
import { airRows, sunRows } from './air-sun-rows.ts';
import { dryingRows, surfaceRows, waterRows } from './surface-water-rows.ts';
import type { AccuracyRow } from './table.ts';
import { skyViewRows, workerRows } from './worker-rows.ts';

export { type AccuracyRow, accuracyMarkdown } from './table.ts';

/** The rows in the order of the rooms' files. */
export function physicsAccuracyRows(): AccuracyRow[] {
  return [
    ...airRows(),
    ...sunRows(),
    ...skyViewRows(),
    ...surfaceRows(),
    ...waterRows(),
    ...dryingRows(),
    ...workerRows(),
  ];
}
