import { describe, expect, it } from 'vitest';
import { buildUpWith, PRODUCTS, workOf } from './stages-examples.ts';

// Common practice: what lies under an old covering is not known until it is opened; soaked boards are
// replaced, not dried; laying 18 mm deck goes at 3-5 m2 a worker-hour.
const boards = (change: Parameters<typeof buildUpWith>[1]) =>
  workOf({ buildUp: buildUpWith(PRODUCTS, change) }).activities.find(
    ({ id }) => id === 'wet-boards',
  );

describe('time for boards found wet', () => {
  it('is kept where a timber deck is opened unread: 5 % of 21 m2 at 4 m2 a worker-hour', () => {
    const found = boards({ strip: true, deckMoisturePct: null });
    expect(found?.quantity?.value).toBeCloseTo(1.05, 6);
    expect(found?.workerMin).toBeCloseTo((1.05 / 4) * 60, 6);
    expect(found?.after).toEqual(['deck-check']);
  });

  it('is not kept where a core has told, and where the deck lies bare', () => {
    expect(boards({ strip: true, deckMoisturePct: 14 })).toBeUndefined();
    expect(boards({ strip: false, deckMoisturePct: null })).toBeUndefined();
  });
});
