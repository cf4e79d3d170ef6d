import { type DayContext, round1 } from './context.ts';
import { hasBar } from './edges.ts';
import { workerMin } from './rates.ts';
import type { SafeStop } from './stop-types.ts';
import type { Activity } from './types.ts';

const RUN_WATER =
  'Outlets clear and running, nothing loose left on the roof, photo of every open edge.';
const EDGES_DOWN =
  'Edges turned down and weighted without a gap, more weight at corners and edges.';

/**
 * Where the crew may stop on this day, in the order of the work. A stop whose kind does not occur on this
 * roof is left out; one that occurs but may not be used says why.
 * @source stage rules of the trade: after loading; sheeted deck; sealed vapour layer as long as its own
 *   sheet allows; weighted sheet; between halves of a sheet; between bays with a night seal; after
 *   sealing (common practice). A loose or half-bonded sheet counts only over something watertight.
 */
export function safeStops(day: DayContext, activities: readonly Activity[]): readonly SafeStop[] {
  const { buildUp, takeOff, bay, rates } = day;
  const has = (id: string): boolean => activities.some((a) => a.id === id);
  const lastOf = (pick: (a: Activity) => boolean): string | null =>
    activities.findLast(pick)?.id ?? null;
  const outlineM = takeOff.edges.reduce((sum, edge) => sum + edge.lengthM, 0);
  const seal = (lengthM: number) => ({
    sealM: lengthM,
    workerMin: workerMin(rates.nightSeal, lengthM),
  });
  const nothing = { sealM: 0, workerMin: 0, looseM2: 0 };
  const tightBelow = buildUp.under === 'sound-covering' || buildUp.under === 'sealed-vapour-layer';
  const stops: SafeStop[] = [
    {
      kind: 'not-opened',
      after: 'set-up',
      title: 'Before anything is opened',
      allowed: true,
      why: 'The old roof, or the deck as found, is as it was.',
      ...nothing,
      actions: ['Stacks and rolls tied down and covered.', RUN_WATER],
    },
  ];

  const bared = lastOf(({ id }) => ['strip', 'wet-boards', 'lay-deck', 'insulation'].includes(id));
  if (bared !== null) {
    stops.push({
      kind: 'sheeted-deck',
      after: bared,
      title: 'Deck covered with sheeting',
      allowed: true,
      why: 'Sheeting keeps showers out, not a storm: it is for a stop that was not planned. Water that runs under it wets the deck, which is then dried and tested again.',
      ...seal(outlineM),
      workerMin: workerMin(rates.nightSeal, outlineM) + workerMin(rates.sheeting, bay.areaM2),
      looseM2: bay.areaM2,
      actions: [
        'Sheeting laid with the fall, upper over lower, 300 mm laps, no hollow that holds water.',
        EDGES_DOWN,
        RUN_WATER,
      ],
    });
  }
  if (has('vapour-layer')) {
    const exposureDays = buildUp.insulation?.vapourLayer?.exposureDays ?? 0;
    stops.push({
      kind: 'sealed-vapour-layer',
      after: 'vapour-layer',
      title: 'Vapour layer bonded and sealed all round',
      allowed: exposureDays > 0,
      why:
        exposureDays > 0
          ? `Its own sheet lets it lie open for ${exposureDays} ${exposureDays === 1 ? 'day' : 'days'}. Boards and sheet may then follow on another dry day.`
          : 'Its own sheet does not let it lie open: it is covered the same day, or a sheet that allows it is chosen.',
      ...seal(outlineM),
      looseM2: 0,
      actions: ['Every lap, edge and pipe sealed and looked over.', RUN_WATER],
    });
  }
  const overTight = tightBelow
    ? 'What lies under it is watertight: water that gets in spoils work, not the building.'
    : 'Nothing under it keeps water out: a loose sheet lets rain in at every edge. Only over a sound old covering or a sealed vapour layer.';
  if (has('relax')) {
    stops.push({
      kind: 'weighted-sheet',
      after: 'relax',
      title: 'Sheet laid out loose and weighted',
      allowed: tightBelow,
      why: overTight,
      ...nothing,
      looseM2: bay.areaM2,
      actions: ['Sheet flat and dry underneath.', EDGES_DOWN, RUN_WATER],
    });
  }
  const firstHalf = takeOff.sheets.length > 0 ? lastOfHalf(activities, 1) : null;
  if (firstHalf !== null) {
    const halfM2 = takeOff.sheets[0]!.cutM2 / 2;
    stops.push({
      kind: 'half-bonded',
      after: firstHalf,
      title: 'First half bonded, loose half down and weighted',
      allowed: tightBelow,
      why: tightBelow
        ? `${overTight} The loose half lies flat, dry beneath.`
        : 'Edges, laps and details are still open. For a break or a passing shower only, loose half down; for the night close the outline first.',
      ...seal(outlineM),
      looseM2: halfM2,
      actions: ['Loose half flat, dry beneath, no adhesive left uncovered.', EDGES_DOWN, RUN_WATER],
    });
  }
  if (has('night-seal')) {
    stops.push({
      kind: 'night-seal',
      after: 'night-seal',
      title: 'Bay finished, night seal towards the next bay',
      allowed: true,
      why: 'The usual stop between bays: laps, edges, upstands and details of the bay are done.',
      ...seal(bay.nightSealM),
      looseM2: 0,
      actions: [
        'Loose edge on an unbroken line of mastic or tape, weighted; water from above runs over it.',
        RUN_WATER,
      ],
    });
  }
  const last =
    lastOf(({ stage }) => stage === 'sealant') ?? lastOf(({ forRainSafe }) => forRainSafe);
  if (last !== null && !has('night-seal')) {
    const bars = takeOff.edges.filter(hasBar).reduce((sum, edge) => sum + edge.lengthM, 0);
    stops.push({
      kind: 'watertight',
      after: last,
      title: 'Roof watertight',
      allowed: true,
      why:
        bars > 0
          ? `Everything is bonded, lapped and sealed, ${round1(bars)} m of bar top among it; flashings may follow on any day.`
          : 'Everything is bonded, lapped and sealed.',
      ...nothing,
      actions: [RUN_WATER],
    });
  }
  return stops;
}

/** The last closing of the first half sheet of the day. */
function lastOfHalf(activities: readonly Activity[], half: number): string | null {
  return (
    activities.findLast(({ id, closes }) => id.startsWith(`field-${half}-`) && closes !== undefined)
      ?.id ?? null
  );
}
