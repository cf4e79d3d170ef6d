import { chanceWords } from '../planner/index.ts';
import type { Calendar } from './calendar.ts';
import type { Changed, Group } from './groups.ts';
import { type Change, changeOf } from './move-price.ts';
import type { Booking, Move, MoveKind } from './move-types.ts';
import { leastChance, placementOf } from './placements.ts';
import type { MovePrices } from './prices.ts';
import { nameOf } from './standing.ts';
import type { Placement } from './types.ts';

/** A change in the words of the people who are to agree to it. */
export function moveOf(
  calendar: Calendar,
  member: Changed,
  group: Group,
  settings: {
    readonly prices: MovePrices;
    readonly nowMs: number;
    readonly firstDate: string;
    readonly crewName: (crewId: string) => string;
  },
): Move {
  const { task, standing, to, gain } = member;
  const booking = standing?.booking ?? null;
  const placed = to === null ? null : placementOf(calendar, task, to);
  const change = changeOf(task, booking, placed, settings);
  const needs = group.needs[group.members.indexOf(member)]!.map((it) => it.task.id);
  const makesRoomFor = group.members
    .filter((_, n) => group.needs[n]!.includes(member))
    .map((it) => nameOf(it.task));
  const hardStop = standing?.troubles.some(({ hard }) => hard) ?? false;
  return {
    jobId: task.id,
    kind: kindOf(booking, placed, change),
    filler: task.kind === 'filler',
    from: booking === null ? null : bare(booking),
    to: placed,
    chanceBefore: chanceBefore(member),
    chanceAfter: to === null ? null : leastChance(task, to),
    why: whyWords(calendar, member, makesRoomFor),
    forced: standing !== null && !member.mayStay,
    hardStop,
    needs,
    words: change.words,
    price: change.price,
    gain,
    ifNot: ifNotWords(member, makesRoomFor),
    booking: placed === null ? null : nextBooking(task.id, booking, placed, change),
  };
}

const bare = ({ jobId, crewId, dates }: Placement): Placement => ({ jobId, crewId, dates });

function kindOf(from: Booking | null, to: Placement | null, change: Change): MoveKind {
  if (from === null) return 'booked';
  if (to === null) return 'taken off';
  if (change.otherCrew && change.dropped.length + change.added.length === 0) return 'other crew';
  if (change.otherCrew || (change.dropped.length > 0 && change.added.length > 0)) return 'moved';
  return change.added.length > 0 ? 'longer' : 'shorter';
}

function chanceBefore({ task, standing }: Changed): number | null {
  if (standing === null) return null;
  if (standing.visit === null || standing.troubles.some(({ hard }) => hard)) return 0;
  return leastChance(task, standing.visit);
}

function whyWords(calendar: Calendar, member: Changed, makesRoomFor: readonly string[]): string {
  const { task, standing, gain } = member;
  if (standing === null) return 'there is a day and a crew for it now, and it is not booked';
  const parts = standing.troubles.map(({ sentence }) => sentence);
  if (standing.daysShort > 0)
    parts.push(`it needs ${daysWords(standing.daysShort)} more than booked`);
  if (parts.length > 0) return parts.join('; ');
  if (gain <= 0 && makesRoomFor.length > 0) return `it makes room for ${makesRoomFor.join(', ')}`;
  const worst = worstDay(calendar, member);
  const better = member.to === null ? null : leastChance(task, member.to);
  if (worst !== null && better !== null && worst.chance < better) {
    const because = worst.reason === null ? '' : ` (${worst.reason})`;
    const after = chanceWords(better).words;
    return `${chanceWords(worst.chance).words} on ${worst.date}${because}, ${after} where it goes`;
  }
  if (makesRoomFor.length > 0) return `it makes room for ${makesRoomFor.join(', ')}`;
  return member.to === null
    ? 'it is expected to cost more than it brings'
    : 'it costs less in waiting, travel or promises where it goes';
}

function worstDay(
  calendar: Calendar,
  { task, standing }: Changed,
): { readonly date: string; readonly chance: number; readonly reason: string | null } | null {
  if (standing?.visit == null || task.kind === 'filler') return null;
  const { crew, days } = standing.visit;
  let worst: { date: string; chance: number; reason: string | null } | null = null;
  for (const d of days) {
    const value = task.byCrew[crew]?.values[d];
    if (value == null || value.chance === null) continue;
    if (worst === null || value.chance < worst.chance)
      worst = { date: calendar.ask.days[d]!, chance: value.chance, reason: value.reason };
  }
  return worst;
}

/** What comes of leaving it as it is. */
function ifNotWords(member: Changed, makesRoomFor: readonly string[]): string {
  const { task, standing, gain } = member;
  const parts: string[] = [];
  if (standing === null) {
    parts.push(`${nameOf(task)} stays without a date`);
  } else if (standing.visit === null || standing.troubles.some(({ hard }) => hard)) {
    parts.push(`${nameOf(task)} cannot go ahead as booked`);
  } else if (standing.daysShort > 0) {
    parts.push(`${nameOf(task)} stays unfinished after the days it has`);
  } else if (task.kind === 'job') {
    const chance = leastChance(task, standing.visit);
    const own = task.byCrew[standing.visit.crew];
    const cost = standing.visit.days.reduce(
      (sum, d) => sum + (own?.values[d]?.expectedCost ?? 0),
      0,
    );
    const words = chance === null ? 'a day that cannot be judged yet' : chanceWords(chance).words;
    parts.push(
      `${nameOf(task)} stays at ${words}, with ${Math.round(cost)} to be expected in lost days`,
    );
  } else {
    parts.push(`${nameOf(task)} stays where it is`);
  }
  if (makesRoomFor.length > 0) parts.push(`${makesRoomFor.join(', ')} cannot move either`);
  if (gain >= 1) parts.push(`about ${Math.round(gain)} is given away`);
  return `${parts.join('; ')}.`;
}

export const daysWords = (n: number): string => (n === 1 ? '1 day' : `${n} days`);

/** The booking as agreed: days gone by stay with their crew; a new date is only pencilled in until the client agrees. */
function nextBooking(jobId: string, from: Booking | null, to: Placement, change: Change): Booking {
  if (from === null) return { ...to, confirmed: false, resources: [] };
  const gone = from.dates.filter(
    (date) => !change.dropped.includes(date) && !to.dates.includes(date),
  );
  return {
    jobId,
    crewId: to.crewId,
    dates: change.otherCrew ? to.dates : [...gone, ...to.dates],
    confirmed: from.confirmed && change.dropped.length === 0,
    resources: from.resources.filter(
      (resource) => !resource.dates.some((date) => change.dropped.includes(date)),
    ),
  };
}
