import { reportOf } from './assign.ts';
import { bookingProblems } from './booking-problems.ts';
import { type Calendar, calendarOf, type Task } from './calendar.ts';
import { type Changed, groupsOf } from './groups.ts';
import { changeOf } from './move-price.ts';
import type { Booking, Replanned, Stays } from './move-types.ts';
import { daysWords, moveOf } from './moves.ts';
import { type Option, packingOf } from './packing.ts';
import { optionOf, placementOf, slotsOf, visitAt } from './placements.ts';
import { type MovePrices, STARTER_MOVE_PRICES } from './prices.ts';
import { type SearchBudget, searchPacking, USUAL_BUDGET } from './search-packing.ts';
import type { SolveSmall } from './small-program.ts';
import { nameOf, type Standing, standingsOf } from './standing.ts';
import { touchedTasks } from './touched.ts';
import type { ProgrammeAsk } from './types.ts';
import { type Visit, visitsOf } from './visits.ts';
import { leftOutWorth, visitWorth } from './worth.ts';

export interface ReplanOptions {
  /** Calendar days from today in which a confirmed booking moves on a hard stop only. */
  readonly freezeDays: number;
  readonly nowMs: number;
  readonly prices?: MovePrices;
  /** The question the current plan answered: then only what a difference brings about is proposed. */
  readonly before?: ProgrammeAsk;
  readonly budget?: Partial<SearchBudget>;
  readonly seed: number;
  readonly shouldStop?: () => boolean;
  readonly solve?: SolveSmall;
}

/** One task in the search: where it stands, whether it may stay, and what every way on is worth. */
interface Place {
  readonly task: Task;
  readonly standing: Standing | null;
  readonly mayStay: boolean;
  /** Worth of leaving it out or taking it off, its price off. */
  readonly base: number;
  /** Worth of staying; equal to `base` where it is not booked or cannot stay. */
  readonly stay: number;
  readonly options: readonly Option[];
  readonly stayOption: Option | null;
  /** Days that are frozen and only get more: not part of its options, because nobody else may have them. */
  readonly anchor: Visit | null;
}

/**
 * The cheapest way from the plan as booked to one that answers the question as it now is: changes in
 * worth less what each move costs, so that few move, and only for a reason.
 * @throws Error naming every fault of question and bookings
 */
export function replan(
  ask: ProgrammeAsk,
  current: readonly Booking[],
  options: ReplanOptions,
): Replanned {
  const calendar = calendarOf(ask);
  const problems = bookingProblems(calendar, current, options.freezeDays);
  if (problems.length > 0) throw new Error(problems.join('\n'));
  const standings = standingsOf(calendar, current, options.freezeDays);
  const touched = options.before === undefined ? null : touchedTasks(options.before, ask, current);
  const places = placesOf(calendar, standings, current, touched, options);
  const packing = packingOf(
    places.map((place) => place.options),
    calendar.slotCount,
  );
  const start = Int32Array.from(places, (place, t) => {
    if (place.stayOption === null) return -1;
    for (let o = packing.optionFrom[t]!; o < packing.optionFrom[t + 1]!; o += 1)
      if (sameSlots(packing.slots.subarray(packing.slotFrom[o]!, packing.slotFrom[o + 1]!), place))
        return o;
    return -1;
  });
  const found = searchPacking(packing, {
    dayCount: calendar.dayCount,
    budget: { ...USUAL_BUDGET, ...options.budget },
    seed: options.seed,
    shouldStop: options.shouldStop ?? (() => false),
    solve: options.solve ?? null,
    start,
  });
  const changed = places.flatMap((place, t): Changed[] => {
    const option = found.options[t]!;
    const from = place.standing?.visit ?? null;
    if (option < 0 && (place.standing === null || place.anchor !== null)) return [];
    if (option >= 0 && option === start[t]) return [];
    const to = option < 0 ? null : together(visitAt(calendar, packing, option), place.anchor);
    const worth = place.base + (option < 0 ? 0 : packing.value[option]!);
    return [
      {
        task: place.task,
        standing: place.standing,
        mayStay: place.mayStay,
        from: from === null ? [] : slotsOf(calendar, from),
        to,
        toSlots: to === null ? [] : slotsOf(calendar, to),
        gain: worth - place.stay,
      },
    ];
  });
  const groups = groupsOf(changed, touched);
  const moves = groups.flatMap((group) =>
    group.members.map((member) => moveOf(calendar, member, group, settingsOf(calendar, options))),
  );
  const moving = new Set(moves.map(({ jobId }) => jobId));
  return {
    moves,
    groups: groups.map(({ members, gain }) => ({
      jobIds: members.map(({ task }) => task.id),
      gain,
    })),
    stays: standings.filter(({ task }) => !moving.has(task.id)).flatMap(staysWords),
    search: reportOf(
      found,
      packing,
      places.reduce((sum, place) => sum + place.base, 0),
    ),
  };
}

function placesOf(
  calendar: Calendar,
  standings: readonly Standing[],
  current: readonly Booking[],
  touched: ReadonlySet<string> | null,
  options: ReplanOptions,
): Place[] {
  const blocked = new Uint8Array(calendar.slotCount);
  for (const standing of standings) {
    if (standing.visit === null || !(standing.fixed || isAnchored(standing))) continue;
    for (const slot of slotsOf(calendar, standing.visit)) blocked[slot] = 1;
  }
  const byTask = new Map(standings.map((standing) => [standing.task.id, standing]));
  const doneWith = new Set(current.map((booking) => booking.jobId).filter((id) => !byTask.has(id)));
  return calendar.tasks.flatMap((task) => {
    const standing = byTask.get(task.id) ?? null;
    // Booked only on days gone by, with nothing said of more: it is not asked for again.
    if (standing?.fixed || (standing === null && doneWith.has(task.id) && task.kind === 'filler'))
      return [];
    const isNews = touched === null || touched.has(task.id);
    return [placeOf(calendar, task, standing, blocked, isNews, options)];
  });
}

function placeOf(
  calendar: Calendar,
  task: Task,
  standing: Standing | null,
  blocked: Uint8Array,
  isNews: boolean,
  options: ReplanOptions,
): Place {
  const settings = settingsOf(calendar, options);
  const booking = standing?.booking ?? null;
  const without = leftOutWorth(calendar, task);
  const base =
    without - (booking === null ? 0 : changeOf(task, booking, null, settings).price.total);
  const here = standing?.visit ?? null;
  const anchor = standing !== null && isAnchored(standing) ? here : null;
  const mayStay = here !== null && (standing!.troubles.length === 0 || anchor !== null);
  const stay = mayStay ? stayWorth(calendar, task, here, standing!.daysShort) : base;
  // What keeps its days whatever happens is measured from them.
  const from = anchor === null ? base : stay;
  const stayOption = mayStay && anchor === null ? optionOf(calendar, here, stay - base) : null;
  const ways: Option[] = [];
  for (const visit of visitsOf(calendar, task, mayStay ? here : null)) {
    if (here !== null && sameVisit(visit, here)) continue;
    const rest = anchor === null ? visit : beyond(visit, anchor);
    if (rest === null || slotsOf(calendar, rest).some((slot) => blocked[slot] === 1)) continue;
    const to = placementOf(calendar, task, visit);
    const { total } = visitWorth(calendar, task, visit.crew, visit.days);
    const { price } = changeOf(task, booking, to, settings);
    // Where nothing is new for a booking, it moves to make room, never for a gain of its own.
    const worth = isNews || !mayStay ? total : Math.min(total, stay);
    ways.push(optionOf(calendar, rest, worth - price.total - from));
  }
  return {
    task,
    standing,
    mayStay,
    base: from,
    stay,
    options: stayOption === null ? ways : [...ways, stayOption],
    stayOption,
    anchor,
  };
}

/**
 * A booking may hold more days than are needed still: the worth is that of those needed. One that
 * holds fewer leaves the roof waiting for the rest.
 */
function stayWorth(calendar: Calendar, task: Task, here: Visit, daysShort: number): number {
  const needed = task.byCrew[here.crew]!.lengthDays;
  const worth = visitWorth(calendar, task, here.crew, here.days.slice(0, needed));
  if (daysShort === 0) return worth.total;
  return worth.total - worth.wait - worth.promise + leftOutWorth(calendar, task);
}

/** Frozen, run over, and nothing hard against it: it keeps its days and gets more. */
const isAnchored = (standing: Standing): boolean =>
  standing.inFreeze &&
  !standing.fixed &&
  standing.visit !== null &&
  !standing.troubles.some(({ hard }) => hard);

/** The days of a visit that come on top of the anchor's; null where it does not keep those. */
function beyond(visit: Visit, anchor: Visit): Visit | null {
  if (visit.crew !== anchor.crew) return null;
  if (!anchor.days.every((day) => visit.days.includes(day))) return null;
  return { crew: visit.crew, days: visit.days.filter((day) => !anchor.days.includes(day)) };
}

function together(visit: Visit, anchor: Visit | null): Visit {
  if (anchor === null) return visit;
  return { crew: visit.crew, days: [...anchor.days, ...visit.days].sort((a, b) => a - b) };
}

const sameVisit = (a: Visit, b: Visit): boolean =>
  a.crew === b.crew && a.days.length === b.days.length && a.days.every((d, n) => d === b.days[n]);

const sameSlots = (slots: Int32Array, { stayOption }: Place): boolean =>
  slots.length === stayOption!.slots.length &&
  slots.every((slot, n) => slot === stayOption!.slots[n]);

function settingsOf({ ask, crewIndex }: Calendar, options: ReplanOptions) {
  return {
    prices: options.prices ?? STARTER_MOVE_PRICES,
    nowMs: options.nowMs,
    firstDate: ask.days[0]!,
    crewName: (id: string): string => ask.crews[crewIndex.get(id) ?? -1]?.name ?? id,
  };
}

function staysWords({ task, troubles, inFreeze, reachesOut, daysShort }: Standing): Stays[] {
  const parts: string[] = [];
  if (troubles.length > 0) {
    const against = troubles.map(({ sentence }) => sentence).join('; ');
    // Nothing else that something is against could have stayed.
    const why =
      inFreeze && !reachesOut
        ? 'it is confirmed and about to begin, and only a hard stop moves it'
        : 'it reaches past the days looked at';
    parts.push(`stays although ${against}: ${why}`);
  }
  if (daysShort > 0) {
    parts.push(`needs ${daysWords(daysShort)} more than booked, and none that fits is worth it`);
  }
  return parts.map((part) => ({ jobId: task.id, sentence: `${nameOf(task)} ${part}.` }));
}
