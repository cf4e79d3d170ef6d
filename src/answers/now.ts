import type { Issue, NowAnswer } from '../contract/index.ts';
import {
  adviseNow,
  type DayPlan,
  forecastEndWords,
  type NowAdvice,
  type Prepared,
  planInUse,
  type Shift,
  type SiteEvent,
  settleState,
  shiftOn,
  stateFromLog,
  type WorkState,
} from '../planner/index.ts';
import { clockText, localDayOf, momentText } from '../time/index.ts';
import { type HourlyWeather, stepStartMs } from '../weather/index.ts';
import type { ReadyJob } from './job.ts';
import { preparedFor } from './prepared.ts';
import { presentNow } from './present-now.ts';
import { quarterNotes } from './quarter-notes.ts';
import { onTried, triedIssues } from './tried.ts';

export interface NowQuestion {
  readonly ready: ReadyJob;
  readonly hourly: HourlyWeather;
  readonly nowMs: number;
  readonly atMs: number;
  /** The bay the list was made for; null = as the job splits into laying days. */
  readonly bayAreaM2?: number | null;
  /** What was told, or the job's site log with what was seen and heard beside it. */
  readonly work:
    | { readonly kind: 'told'; readonly state: WorkState }
    | {
        readonly kind: 'log';
        readonly events: readonly SiteEvent[];
        readonly thunderMs: number | null;
        readonly rainInMin: number | null;
      };
}

export type NowResult =
  | { readonly ok: true; readonly answer: NowAnswer }
  | { readonly ok: false; readonly from: 'question' | 'log'; readonly issues: readonly Issue[] };

/** 'What now?': the best way on from a minute, from what is done and what lies coated. */
export function answerNow(q: NowQuestion): NowResult {
  const { ready, hourly, nowMs, work } = q;
  const { job } = ready;
  const zone = job.site.timeZone;
  const shift = shiftOn(job.crew, localDayOf(q.atMs, zone), zone);
  // The crew dried the deck down this morning.
  const tried = q.bayAreaM2 == null ? {} : { bay: q.bayAreaM2 };
  const wrong = triedIssues(ready, tried);
  if (wrong.length > 0) return { ok: false, from: 'question', issues: wrong };
  const prepared = onTried(preparedFor(ready, hourly, Math.min(q.atMs, shift.startMs)), tried);
  const { grid } = prepared;
  const endMs = stepStartMs(grid, Math.max(0, ...grid.knownSteps));
  if (q.atMs < grid.startMs || q.atMs >= endMs) {
    const message = `at lies outside the forecast, which runs from ${momentText(grid.startMs, zone)} to ${momentText(endMs, zone)}.`;
    return { ok: false, from: 'question', issues: [{ path: 'at', message }] };
  }
  const plan = planInUse(prepared, shift, namesOf(q, shift));
  const { state, notes } = stateOf(q, plan);
  const show = (ms: number): string => clockText(ms, zone);
  const settled = settleState(plan, state, q.atMs, show);
  if (!settled.ok) {
    const from = work.kind === 'log' ? 'log' : 'question';
    const issues = settled.issues.map(({ about, message }) => ({ path: about, message }));
    return { ok: false, from, issues };
  }
  const { found } = settled;
  const untouched = found.done.length === 0 && found.inHand === null;
  // Before the crew comes the day is planned from when it does.
  const atMs = untouched ? Math.max(q.atMs, shift.startMs) : q.atMs;
  const advice = adviseNow(plan, found, atMs, {
    thunderMs: state.thunderMs,
    rainInMin:
      state.rainInMin === null ? null : Math.max(0, state.rainInMin - (atMs - q.atMs) / 60_000),
  });
  return {
    ok: true,
    answer: presentNow({
      advice,
      nowMs,
      askedMs: q.atMs,
      thunderMs: state.thunderMs,
      notes: [
        ...notes,
        ...settled.notes,
        ...quarterNotes(prepared, hourly.quarterRain, q.atMs),
        ...dayNotes(prepared, shift, q.atMs),
        ...endNotes(advice),
      ],
      extra: ready.notes ?? [],
    }),
  };
}

/** The names that say how the crew's list is cut. */
function namesOf({ work, atMs }: NowQuestion, shift: Shift): string[] {
  if (work.kind === 'told') {
    const { done, coated, inHand } = work.state;
    const names = [...done, ...coated].map(({ name }) => name);
    return inHand === null ? names : [...names, inHand.name];
  }
  const today = work.events.filter(
    (event) => event.atMs >= shift.day.startMs && event.atMs <= atMs,
  );
  return today.flatMap((event) => ('activityId' in event ? [event.activityId] : []));
}

function stateOf(
  { work, atMs }: NowQuestion,
  plan: DayPlan,
): { readonly state: WorkState; readonly notes: readonly string[] } {
  if (work.kind === 'told') return { state: work.state, notes: [] };
  const { notes, ...logged } = stateFromLog(plan, work.events, atMs);
  const heard = [logged.thunderMs, work.thunderMs].filter((ms) => ms !== null);
  const thunderMs = heard.length === 0 ? null : Math.max(...heard);
  return { state: { ...logged, thunderMs, rainInMin: work.rainInMin }, notes };
}

/** What the forecast does not reach of the work there is to go on with, whatever way is chosen. */
function endNotes({ plan, ways, finished }: NowAdvice): string[] {
  const goOn = ways.find(({ id }) => id === 'go-on');
  const words = finished || goOn === undefined ? null : forecastEndWords({ plan, runs: goOn.runs });
  return words === null ? [] : [words];
}

function dayNotes({ job }: Prepared, { day, startMs, endMs }: Shift, atMs: number): string[] {
  const zone = job.site.timeZone;
  const { dayStart, dayEnd, workDays, daysOff } = job.crew;
  if (!workDays.includes(day.weekday) || daysOff.includes(day.date))
    return [`${day.date} is not a working day for this crew.`];
  if (atMs >= startMs && atMs < endMs) return [];
  return [`${clockText(atMs, zone)} is outside the working day, ${dayStart} to ${dayEnd}.`];
}
