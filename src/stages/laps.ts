import type { BayLap } from '../roof/index.ts';
import {
  activity,
  bondRules,
  type DayContext,
  equalChunks,
  type LaidHalf,
  ofMany,
  productCautions,
  round1,
  USABLE_SHARE,
  workRules,
} from './context.ts';
import { TASK_SHARES, workerMin } from './rates.ts';
import { LONGEST_AT_ONCE_M } from './sections.ts';
import { CAUTION, HOLD, IF_RAIN } from './texts.ts';
import type { Activity } from './types.ts';

export interface LapWork {
  readonly activities: readonly Activity[];
  /** Ids that close each lap, by lap number. */
  readonly closedBy: ReadonlyMap<number, readonly string[]>;
}

/** Taped laps in lengths that are primed, flash off and closed inside the primer's window. */
export function lapWork(day: DayContext, halves: readonly LaidHalf[]): LapWork {
  const activities: Activity[] = [];
  const closedBy = new Map<number, readonly string[]>();
  const mostM = longestLapM(day);
  for (const lap of day.takeOff.laps) {
    const laid = halves.filter((h) => lap.sheets.includes(h.sheet)).map((h) => h.closedBy);
    let from = [...new Set(laid)];
    if (lap.kind === 'join') {
      const prepare = takeUpNightSeal(day, lap, from);
      activities.push(prepare);
      from = [prepare.id];
    }
    const lengths = equalChunks(lap.lengthM, mostM);
    const ids: string[] = [];
    lengths.forEach((lengthM, i) => {
      const id = `lap-${lap.number}-${i + 1}`;
      const name = `${ofMany(lapName(day, lap), i, lengths.length)} (${round1(lengthM)} m)`;
      activities.push(...lapPair(day, { id, name, lengthM, from }));
      ids.push(`${id}-close`);
    });
    closedBy.set(lap.number, ids);
  }
  return { activities, closedBy };
}

/** One pair, or two pairs working towards each other. */
const lapPeople = (day: DayContext): number => Math.min(day.people, 2 * day.rates.lap.crew);

/** Longest lap primed and closed inside the primer's window, 1 m or more. */
function longestLapM(day: DayContext): number {
  const people = lapPeople(day);
  const fitsM = ((day.usable.primerMin * USABLE_SHARE) / 60) * people * day.rates.lap.typical;
  return Math.min(LONGEST_AT_ONCE_M.laps, Math.max(1, fitsM));
}

function lapName(day: DayContext, lap: BayLap): string {
  if (lap.kind === 'join') return 'join to the sheet laid before';
  const others = day.takeOff.laps.filter((l) => l.kind !== 'join').length;
  return others === 1 ? 'the lap' : `${lap.kind} lap ${lap.number}`;
}

function lapPair(
  day: DayContext,
  s: {
    readonly id: string;
    readonly name: string;
    readonly lengthM: number;
    readonly from: readonly string[];
  },
): Activity[] {
  const totalMin = workerMin(day.rates.lap, s.lengthM);
  const quantity = { value: s.lengthM, unit: 'm' } as const;
  const common = {
    stage: 'laps',
    maxPeople: lapPeople(day),
    oneGo: true,
    quantity,
    ifRain: IF_RAIN.laps,
  } as const;
  return [
    activity({
      ...common,
      id: `${s.id}-prime`,
      title: `Clean and prime both faces: ${s.name}`,
      workerMin: totalMin * TASK_SHARES.lapPrime,
      after: s.from,
      rules: bondRules(day.products.primer, false),
      coats: { productId: day.products.primer.id, surfaces: ['sheet'] },
      productJob: 'primer',
      holdPoints: [HOLD.lapClean, 'Primer reaches 5-10 mm past the line of the lap.'],
      cautions: productCautions(day.products.primer),
    }),
    activity({
      ...common,
      id: `${s.id}-close`,
      title: `Tape, close and roll: ${s.name}`,
      workerMin: totalMin * (1 - TASK_SHARES.lapPrime),
      after: [`${s.id}-prime`],
      rules: workRules('rain', 'dew-margin', 'surface-temp'),
      closes: `${s.id}-prime`,
      noReturn: true,
      productJob: 'lap-tape',
      holdPoints: [HOLD.finger, 'Rolled hard across, then along; no fishmouths.'],
      cautions: productCautions(day.products.lapTape),
    }),
  ];
}

function takeUpNightSeal(day: DayContext, lap: BayLap, after: readonly string[]): Activity {
  return activity({
    id: `lap-${lap.number}-prepare`,
    stage: 'laps',
    title: 'Take up the night seal, cut off the spoiled strip, dry and clean the edge',
    workerMin: workerMin(day.rates.nightSeal, lap.lengthM),
    maxPeople: lapPeople(day),
    after,
    rules: workRules('rain', 'dew-margin'),
    oneGo: true,
    noReturn: true,
    quantity: { value: lap.lengthM, unit: 'm' },
    holdPoints: [
      'Deck and sheet dry under the old edge; anything wet is dried or replaced before closing.',
    ],
    cautions: [CAUTION.slips],
    ifRain: IF_RAIN.laps,
  });
}
