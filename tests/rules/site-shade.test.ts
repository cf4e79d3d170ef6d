import { describe, expect, it } from 'vitest';
import { readyJob } from '../../src/answers/index.ts';
import { jobOf, preparedFor, SHELF } from '../fixtures/planner/job.ts';

// Geometry: a skyline of 60 deg all round hides the sun of a May noon at 52 N (57 deg at the most,
// 90 - 52 + 19); what is left is light from the sky, so that a deck in it stays near the air.
const TREES = [
  { azimuthDeg: 0, elevationDeg: 60 },
  { azimuthDeg: 180, elevationDeg: 60 },
];

function warmestK(skyline: typeof TREES): number {
  const prepared = preparedFor({ changes: { site: { skyline, wall: null } } });
  const deck = prepared.surface('deck');
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < prepared.grid.knownSteps[0]!; i += 1) {
    most = Math.max(most, deck.surfaceTempC[i]! - prepared.grid.airTempC[i]!);
  }
  return most;
}

describe('a tree line round a roof', () => {
  it('keeps the sun off its deck', () => {
    expect(warmestK([])).toBeGreaterThan(warmestK(TREES) + 5);
  });

  it('is not taken beside a wall: one of the two', () => {
    const { job } = jobOf('parish-room');
    const read = readyJob({ ...job, site: { ...job.site, skyline: TREES } }, SHELF);
    expect(read).toMatchObject({ ok: false, issues: [{ path: 'site.skyline' }] });
  });
});
