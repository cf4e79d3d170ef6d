import { describe, expect, it } from 'vitest';
import { buildUpIssues } from '../../src/stages/index.ts';
import { buildUpWith, CONTACT, FOAM, PRODUCTS, workOf } from './stages-examples.ts';

/** Order and rates of layers are common practice of the trade; 4-8 m2 per worker-hour for both layers. */

const insulation = { thicknessMm: 120, vapourLayer: { exposureDays: 14 } };
const WARM = { layDeck: true, insulation } as const;

const issuesOf = (
  change: Parameters<typeof buildUpWith>[1],
  products: typeof PRODUCTS = PRODUCTS,
): string[] => buildUpIssues(buildUpWith(products, change), products).map(({ path }) => path);

describe('layers laid in the job', () => {
  it('go down from below up, after the deck is tested and before setting out', () => {
    const ids = workOf({ buildUp: buildUpWith(PRODUCTS, WARM) }).activities.map(({ id }) => id);
    const order = ['strip', 'deck-check', 'vapour-layer', 'insulation', 'lay-deck', 'sweep'];
    expect(ids.filter((id) => order.includes(id))).toEqual(order);
  });

  it('take the published time of both layers together, and that of the boards', () => {
    // Common practice: 6 m2 per worker-hour for vapour layer and insulation, 4 for 18 mm boards.
    const work = workOf({ buildUp: buildUpWith(PRODUCTS, WARM) });
    const minutes = (id: string) => work.activities.find((a) => a.id === id)!.workerMin;
    expect(minutes('vapour-layer') + minutes('insulation')).toBeCloseTo((21 / 6) * 60, 9);
    expect(minutes('lay-deck')).toBeCloseTo((21 / 4) * 60, 9);
  });

  it('open the roof with the first dry board where nothing is stripped', () => {
    const work = workOf({ buildUp: buildUpWith(PRODUCTS, { ...WARM, strip: false }) });
    expect(work.activities.find(({ opens }) => opens)?.id).toBe('insulation');
  });

  it('say whether the vapour layer is a place to stop', () => {
    const points = (exposureDays: number) =>
      workOf({
        buildUp: buildUpWith(PRODUCTS, {
          layDeck: true,
          insulation: { thicknessMm: 120, vapourLayer: { exposureDays } },
        }),
      })
        .activities.find(({ id }) => id === 'vapour-layer')!
        .holdPoints.join(' ');
    expect(points(14)).toContain('14 days');
    expect(points(0)).toContain('cover it today');
  });

  it('are left out where the job lays none', () => {
    const ids = workOf().activities.map(({ id }) => id);
    for (const id of ['vapour-layer', 'insulation', 'lay-deck']) expect(ids).not.toContain(id);
  });
});

describe('layers that do not fit', () => {
  it('are named', () => {
    expect(
      issuesOf({ layDeck: true, deck: 'faced-board' }, { ...PRODUCTS, field: CONTACT }),
    ).toEqual(['buildUp.layDeck']);
    expect(issuesOf({ insulation })).toEqual(['buildUp.insulation']);
    expect(
      issuesOf(
        { insulation, deck: 'faced-board', deckThicknessMm: 100 },
        { ...PRODUCTS, field: CONTACT },
      ),
    ).toEqual(['buildUp.insulation.thicknessMm']);
  });

  it('polystyrene takes neither solvent nor water-borne adhesive, and foam in the field only', () => {
    // Trade guides: solvent melts it and water-borne will not hold, so overlay first.
    const bare = { deck: 'polystyrene', strip: false } as const;
    expect(issuesOf(bare)).toContain('buildUp.products.field');
    expect(issuesOf(bare, { ...PRODUCTS, field: CONTACT })).toContain('buildUp.products.field');
    expect(issuesOf(bare, { ...PRODUCTS, field: FOAM })).toEqual(['buildUp.products.perimeter']);
  });

  it('a paper face lets a wet-laid adhesive dry, a foil face does not', () => {
    expect(issuesOf({ deck: 'paper-faced-board', strip: false })).toEqual([]);
    expect(issuesOf({ deck: 'faced-board', strip: false })).toEqual(['buildUp.products.field']);
  });
});
