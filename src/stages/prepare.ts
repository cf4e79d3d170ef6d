import { activity, type DayContext, workRules } from './context.ts';
import { newLayers } from './new-layers.ts';
import { TASK_SHARES, workerMin } from './rates.ts';
import { CAUTION, HOLD, IF_RAIN, SHEET_KG_M2 } from './texts.ts';
import type { Activity } from './types.ts';

/** From arriving to the sheets lying relaxed on a dry deck. The last one's id is 'relax'. */
export function preparation(day: DayContext): Activity[] {
  const { rates, buildUp, people, bay } = day;
  const areaM2 = bay.areaM2;
  const crew = Math.max(1, Math.min(people, Math.max(4, Math.floor(areaM2 / 10))));
  const list: Activity[] = [
    activity({
      id: 'set-up',
      stage: 'set-out',
      title: 'Set up: edge protection, access, materials to the roof, tins warm',
      workerMin: workerMin(rates.setUp, 1),
      maxPeople: crew,
      rules: workRules(),
      holdPoints: [
        'Edge protection and access looked over.',
        'Air, surface, humidity and wind read and written down; forecast looked at again.',
        'Tins at 15-27 °C, in date; batch numbers written down.',
      ],
      cautions: [CAUTION.edges],
      ifRain: IF_RAIN.before,
    }),
  ];
  let before = 'set-up';
  if (buildUp.strip) {
    list.push(
      activity({
        id: 'strip',
        stage: 'open-up',
        title: 'Strip the old covering and clear it away',
        workerMin: workerMin(rates.strip, areaM2),
        maxPeople: crew,
        after: [before],
        rules: workRules('rain'),
        oneGo: true,
        quantity: { value: areaM2, unit: 'm2' },
        holdPoints: ['Go decision made by the foreman: strip only what is sealed again today.'],
        cautions: [CAUTION.strip, CAUTION.edges, CAUTION.dust],
        ifRain: IF_RAIN.strip,
      }),
    );
    before = 'strip';
  }
  const boards = wetBoards(day);
  const layers = newLayers(day, boards[0]?.id ?? 'deck-check');
  list.push(
    activity({
      id: 'dry-down',
      stage: 'dry-down',
      title: 'Squeegee and blow the deck dry',
      workerMin: workerMin(rates.dryDown, areaM2),
      maxPeople: crew,
      after: [before],
      rules: workRules('rain'),
      quantity: { value: areaM2, unit: 'm2' },
      cautions: [CAUTION.slips, CAUTION.edges],
      ifRain: IF_RAIN.deck,
    }),
    deckCheck(day),
    ...boards,
    ...layers,
    activity({
      id: 'sweep',
      stage: 'set-out',
      title: 'Sweep, vacuum and snap the lines',
      workerMin: workerMin(rates.sheetOut, areaM2) * TASK_SHARES.sheetOut.sweep,
      maxPeople: crew,
      after: [layers.at(-1)?.id ?? boards[0]?.id ?? 'deck-check'],
      rules: workRules('rain'),
      quantity: { value: areaM2, unit: 'm2' },
      holdPoints: ['Deck clean and dust-free; heads flush, joints under 5-6 mm.'],
      cautions: [CAUTION.dust],
      ifRain: IF_RAIN.deck,
    }),
    activity({
      id: 'unroll',
      stage: 'set-out',
      title: `Unroll and place ${sheetWords(day)}`,
      workerMin: workerMin(rates.sheetOut, areaM2) * TASK_SHARES.sheetOut.unroll,
      minPeople: 2,
      maxPeople: crew,
      after: ['sweep'],
      rules: workRules('rain', 'deck-dry', 'sheet-wind'),
      quantity: {
        value: day.takeOff.sheets.reduce((sum, sheet) => sum + sheet.cutM2, 0),
        unit: 'm2',
      },
      holdPoints: overlaps(day),
      cautions: [CAUTION.lifting(heaviestKg(day)), CAUTION.sail, CAUTION.edges],
      ifRain: IF_RAIN.sheet,
    }),
    activity({
      id: 'relax',
      stage: 'relax',
      title: 'Square up, weight the edges and leave the sheet to relax',
      workerMin: workerMin(rates.sheetOut, areaM2) * TASK_SHARES.sheetOut.relax,
      minPeople: 2,
      maxPeople: crew,
      after: ['unroll'],
      rules: workRules('sheet-wind'),
      holdPoints: [HOLD.relax],
      cautions: [CAUTION.sail, CAUTION.hotSheet],
      ifRain: IF_RAIN.sheet,
    }),
  );
  return list;
}

/** Boards found wet when a roof is opened, as a share of its area; common practice, weak. */
const WET_BOARD_SHARE = 0.05;

/**
 * Time for what nobody can know before the roof is open: soaked boards are replaced, not dried. Not
 * needed where a reading or a core has told that the deck is no wetter than 19 %.
 */
function wetBoards(day: DayContext): Activity[] {
  const { deck, strip, deckMoisturePct } = day.buildUp;
  const timber = deck === 'osb' || deck === 'plywood';
  const dryEnough = deckMoisturePct !== null && deckMoisturePct <= 19;
  if (!strip || !timber || dryEnough) return [];
  const areaM2 = WET_BOARD_SHARE * day.bay.areaM2;
  return [
    activity({
      id: 'wet-boards',
      stage: 'dry-down',
      title: `Change boards found wet: time for ${areaM2.toFixed(1)} m², more or less once opened`,
      workerMin: workerMin(day.rates.layDeck, areaM2),
      maxPeople: Math.min(day.people, day.rates.layDeck.crew),
      after: ['deck-check'],
      rules: workRules('rain'),
      quantity: { value: areaM2, unit: 'm2' },
      holdPoints: ['Boards over 19 % or soft are out; new ones dry, fixed, heads flush.'],
      cautions: [CAUTION.strip, CAUTION.edges],
      ifRain: IF_RAIN.deck,
    }),
  ];
}

const FACER = 'Boards and facers dry and sound; a wet board is replaced, not dried.';

function deckCheck(day: DayContext): Activity {
  const points = 3 * Math.ceil(day.bay.areaM2 / 10);
  const timber = day.buildUp.deck === 'osb' || day.buildUp.deck === 'plywood';
  const material: Readonly<Record<typeof day.buildUp.deck, readonly string[]>> = {
    osb: ['OSB misreads on a pin meter: compare with a piece known to be dry.'],
    plywood: [],
    'faced-board': [FACER],
    'paper-faced-board': [FACER],
    polystyrene: [FACER],
    'existing-sheet': [
      'Old sheet clean, well held down, no blisters, no water under it where cut open.',
    ],
  };
  return activity({
    id: 'deck-check',
    stage: 'dry-down',
    title: timber
      ? `Test the deck: tissue, and pin meter at ${points} points`
      : 'Test the deck dry',
    workerMin: workerMin(day.rates.moisturePoint, points) + 5,
    maxPeople: Math.min(day.people, 4),
    after: ['dry-down'],
    rules: workRules('rain', 'deck-dry', 'dew-margin'),
    quantity: { value: points, unit: 'no.' },
    holdPoints: [
      HOLD.tissue,
      ...(timber
        ? [
            `Pin meter at 3 points or more per 10 m² (${points} here), low spots, joints and shade among them: 16 % or less go, 16-19 % caution, over 19 % stop.`,
          ]
        : []),
      ...material[day.buildUp.deck],
      HOLD.film,
      HOLD.firstCoat,
    ],
    cautions: [CAUTION.slips],
    ifRain: IF_RAIN.deck,
  });
}

function sheetWords(day: DayContext): string {
  const count = day.takeOff.sheets.length;
  return count === 1 ? 'the sheet' : `${count} sheets`;
}

function heaviestKg(day: DayContext): number {
  const largestM2 = Math.max(...day.takeOff.sheets.map((s) => s.cutM2));
  return Math.ceil((largestM2 * SHEET_KG_M2) / 5) * 5;
}

function overlaps(day: DayContext): string[] {
  const { takeOff } = day;
  const upstandMm = Math.max(0, ...takeOff.edges.map((edge) => edge.upstandMm));
  const points = [
    'Sheet right side up, 100 mm over every eaves and verge, no stretch, no creases.',
  ];
  if (upstandMm > 0) {
    points.push(`At the wall the sheet reaches ${upstandMm} mm up and 50 mm over for trimming.`);
  }
  if (takeOff.laps.some((lap) => lap.kind !== 'join')) {
    points.push('Laps 100 mm, the upper sheet over the lower so that they shed water.');
  }
  return points;
}
