import { activity, type DayContext, round1, workRules } from './context.ts';
import { TASK_SHARES, workerMin } from './rates.ts';
import { CAUTION, IF_RAIN } from './texts.ts';
import type { Activity } from './types.ts';

/**
 * Vapour layer, insulation and new boards, in that order from below; [] where the job lays none. What is
 * laid dry today is covered today: boards that get wet are replaced, not dried.
 */
export function newLayers(day: DayContext, after: string): Activity[] {
  const { insulation, layDeck, deck, deckThicknessMm } = day.buildUp;
  const areaM2 = day.bay.areaM2;
  const quantity = { value: areaM2, unit: 'm2' } as const;
  const both = workerMin(day.rates.insulate, areaM2);
  const list: Activity[] = [];
  let before = after;
  const add = (given: Parameters<typeof activity>[0]): void => {
    list.push(
      activity({
        maxPeople: Math.min(day.people, 6),
        after: [before],
        quantity,
        cautions: [CAUTION.edges, CAUTION.boards],
        ...given,
      }),
    );
    before = given.id;
  };
  if (insulation?.vapourLayer) {
    const { exposureDays } = insulation.vapourLayer;
    add({
      id: 'vapour-layer',
      stage: 'vapour-layer',
      title: 'Lay the vapour layer; seal laps, edges and every pipe',
      workerMin: both * TASK_SHARES.insulate.vapourLayer,
      rules: workRules('rain', 'deck-dry', 'sheet-wind'),
      holdPoints: [
        'Laps sealed through, turned up at edges and sealed to the wall or edge; no hole left open.',
        exposureDays > 0
          ? `Its sheet lets it lie open for ${exposureDays} ${exposureDays === 1 ? 'day' : 'days'}: bonded and sealed all round, this is a place to stop.`
          : 'Its sheet does not let it lie open: cover it today.',
      ],
      ifRain: IF_RAIN.vapourLayer,
    });
  }
  if (insulation !== null) {
    add({
      id: 'insulation',
      stage: 'insulation',
      title: `Lay the insulation, ${round1(insulation.thicknessMm)} mm, joints tight and staggered`,
      workerMin: both * TASK_SHARES.insulate.boards,
      rules: workRules('rain', 'sheet-wind'),
      holdPoints: [
        'Boards dry, bonded or fixed as the designer asks, more at edges and corners; no gap, no step.',
        'No more boards out than the sheet covers today.',
      ],
      ifRain: IF_RAIN.boards,
    });
  }
  if (layDeck) {
    add({
      id: 'lay-deck',
      stage: 'deck',
      title: `Lay and fix the new ${deck === 'osb' ? 'OSB' : 'plywood'}, ${round1(deckThicknessMm)} mm`,
      workerMin: workerMin(day.rates.layDeck, areaM2),
      rules: workRules('rain', 'sheet-wind'),
      holdPoints: [
        'Ends on bearers, joints staggered and under 5-6 mm, heads punched below the face.',
        'New boards dry: pin meter, 16 % or less go, 16-19 % caution, over 19 % stop.',
      ],
      ifRain: IF_RAIN.boards,
    });
  }
  return list;
}
