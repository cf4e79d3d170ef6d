import type { AheadAnswer, AheadSpot, AheadWhat, AheadWork, Issue } from '../contract/index.ts';
import {
  aheadAt,
  aheadOver,
  aheadSentence,
  CAUTIONS,
  type Prepared,
  type Shift,
  type AheadSpot as Spot,
  shiftOn,
  tasksAhead,
  waitUntil,
  whyNone,
} from '../planner/index.ts';
import type { SectionKind, SectionTask } from '../stages/index.ts';
import { clockText, localDayOf, momentText } from '../time/index.ts';
import { type HourlyWeather, stepAt, stepStartMs } from '../weather/index.ts';
import type { ReadyJob } from './job.ts';
import { preparedFor } from './prepared.ts';
import { presentJob } from './present-days.ts';
import { presentWeather } from './present-weather.ts';
import { onTried, triedIssues } from './tried.ts';

export interface AheadQuestion {
  readonly ready: ReadyJob;
  readonly hourly: HourlyWeather;
  readonly nowMs: number;
  readonly atMs: number;
  readonly what: AheadWhat;
  /** Null = the job's crew. */
  readonly people: number | null;
  /** Null = as the job splits into laying days. */
  readonly bayAreaM2?: number | null;
}

export type AheadResult =
  | { readonly ok: true; readonly answer: AheadAnswer }
  | { readonly ok: false; readonly issues: readonly Issue[] };

const KINDS: Readonly<Record<AheadWhat, readonly SectionKind[]>> = {
  field: ['field'],
  edges: ['edges', 'upstands'],
  laps: ['laps'],
};

/** 'How far ahead may we coat?', at a moment and over the working day it falls in. */
export function answerAhead(q: AheadQuestion): AheadResult {
  const { ready, hourly, nowMs, atMs, what } = q;
  const tried = q.bayAreaM2 == null ? {} : { bay: q.bayAreaM2 };
  const wrong = triedIssues(ready, tried);
  if (wrong.length > 0) return { ok: false, issues: wrong };
  const { job } = ready;
  const zone = job.site.timeZone;
  const shift = shiftOn(job.crew, localDayOf(atMs, zone), zone);
  // Whoever is about to coat has dried the deck down that morning.
  const fromMs = Math.min(nowMs, atMs, shift.startMs);
  const prepared = onTried(preparedFor(ready, hourly, fromMs), tried);
  const { grid } = prepared;
  const endMs = stepStartMs(grid, Math.max(0, ...grid.knownSteps));
  if (atMs < grid.startMs || atMs >= endMs) {
    return refuse(
      'at',
      `at lies outside the forecast, which runs from ${momentText(grid.startMs, zone)} to ${momentText(endMs, zone)}.`,
    );
  }
  const people = q.people ?? job.crew.people;
  const found = tasksAhead(prepared, people, shift);
  if (!found.ok) return { ok: false, issues: found.issues };
  const tasks = found.tasks.filter(({ kind }) => KINDS[what].includes(kind));
  if (tasks.length === 0) {
    const { number, of } = found.bay;
    const there = (['field', 'edges', 'laps'] as const).filter((name) =>
      found.tasks.some(({ kind }) => KINDS[name].includes(kind)),
    );
    return refuse(
      'what',
      `what is '${what}'; laying day ${number} of ${of} has none, only ${there.join(' and ')}.`,
    );
  }
  const works = tasks.map((task) => workOf(prepared, task, shift, atMs, nowMs));
  const hazards = tasks.flatMap(({ coat }) => [
    ...(prepared.productById.get(coat.coats!.productId)?.hazards ?? []),
    ...coat.cautions,
  ]);
  return {
    ok: true,
    answer: {
      job: presentJob(job),
      nowMs,
      atMs,
      weather: presentWeather(grid, { zone, nowMs: atMs }),
      bay: { ...found.bay },
      people,
      works,
      notes: notesOf(prepared, shift, atMs),
      cautions: [...new Set([...hazards, ...CAUTIONS, ...(ready.notes ?? [])])],
    },
  };
}

function workOf(
  prepared: Prepared,
  task: SectionTask,
  shift: Shift,
  atMs: number,
  nowMs: number,
): AheadWork {
  const zone = prepared.job.site.timeZone;
  const shaded = prepared.shaded();
  const sunIsUp = (ms: number): boolean => {
    const { grid } = prepared;
    return (grid.sunElevationDeg[stepAt(grid, ms)] ?? -90) > 0;
  };
  const later = (place: Prepared, { most }: Spot): Spot | null =>
    most > 0 ? null : waitUntil(place, task, shift, atMs, shift.endMs);
  const open = aheadAt(prepared, task, shift, atMs);
  const openLater = later(prepared, open);
  const shade = sunIsUp(atMs) ? aheadAt(shaded, task, shift, atMs) : null;
  const shadeLater = shade === null ? null : later(shaded, shade);
  const inShade = aheadOver(shaded, task, shift);
  const product = prepared.productById.get(task.coat.coats!.productId)!;
  return {
    kind: task.kind,
    unit: task.unit,
    product: { id: product.id, name: product.name, closing: product.closing },
    surfaces: [...task.coat.coats!.surfaces],
    people: task.people,
    largest: task.mostAtOnce,
    sentence: aheadSentence(task, { open, openLater, shade, shadeLater }, nowMs, zone),
    now: { open: present(open, zone), shade: shade === null ? null : present(shade, zone) },
    openFromMs: openLater?.atMs ?? null,
    shadeFromMs: shadeLater?.atMs ?? null,
    hours: aheadOver(prepared, task, shift).map((spot, n) => ({
      open: present(spot, zone),
      shade: sunIsUp(spot.atMs) ? present(inShade[n]!, zone) : null,
    })),
    holdPoints: [...new Set([...task.coat.holdPoints, ...task.close.holdPoints])],
  };
}

function present(spot: Spot, zone: string): AheadSpot {
  const { endMs: _, held, ready, ...rest } = spot;
  return {
    ...rest,
    held: held === null ? null : { ...held },
    ready: ready === null ? null : { ...ready },
    whyNone: spot.most > 0 ? null : whyNone(spot, zone),
  };
}

function notesOf({ job, grid }: Prepared, shift: Shift, atMs: number): string[] {
  const zone = job.site.timeZone;
  const notes = [
    'Coating and closing together take at most two thirds of what the adhesive leaves for them; the rest is margin.',
    grid.memberCount === 1
      ? 'By the one forecast there is.'
      : `So that it goes well in at least ${tenths(job.confidence)} of the forecasts.`,
    'Shade is where the sun’s disc does not reach; its wind is taken as in the open, though a wall may still the air and slow drying.',
  ];
  const { dayStart, dayEnd, workDays } = job.crew;
  if (!workDays.includes(shift.day.weekday)) {
    notes.push(`${shift.day.date} is not a working day for this crew.`);
  } else if (atMs < shift.startMs || atMs >= shift.endMs) {
    notes.push(`${clockText(atMs, zone)} is outside the working day, ${dayStart} to ${dayEnd}.`);
  }
  return notes;
}

const tenths = (share: number): string => `${Math.round(share * 100)} %`;

function refuse(path: string, message: string): AheadResult {
  return { ok: false, issues: [{ path, message }] };
}
