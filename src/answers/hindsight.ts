import type { Hindsight } from '../contract/index.ts';
import {
  brierScore,
  brierSkill,
  CASES_NEEDED,
  type FirmRecord,
  type Job,
  type JudgedChance,
} from '../planner/index.ts';
import {
  type CalledDay,
  type DayCall,
  LEAD_CLASSES,
  leadClassOf,
  outcomeOfDay,
  whyNoCase,
} from '../record/index.ts';
import { localDayOf } from '../time/index.ts';

/** Days listed; all of them count. */
const MOST_LISTED = 200;

export interface HindsightParts {
  readonly jobs: readonly { readonly job: Job; readonly days: readonly CalledDay[] }[];
  readonly record: FirmRecord;
  readonly nowMs: number;
}

type Listed = Hindsight['days'][number];
type Score = NonNullable<Hindsight['score']>;

/** One call of a day whose outcome is known. */
interface Judged extends JudgedChance {
  readonly said: string;
  readonly lead: number;
}

const NOTES = [
  'Only days that somebody logged as ended count: tried and finished, cut short by the weather, caught open, or stood down for the weather of the day itself.',
  'A day called off on the forecast counts for nothing: nobody saw whether it would have finished. So the record says little of chances on which you would never set out.',
  'Of several calls in one class of days ahead the last one counts; what was said once the crew’s day had begun does not.',
  'The usual share is this record’s own, known only afterwards: a hard reference while days are few.',
];

/** What each past call said and what came, for a person to read. */
export function presentHindsight({ jobs, record, nowMs }: HindsightParts): Hindsight {
  const cases = jobs.flatMap(({ days }) => days.map(judgedOf));
  const last = cases.flatMap(([nearest]) => nearest ?? []);
  const all = cases.flat();
  const listed = jobs
    .flatMap(({ job, days }) =>
      days.filter((day) => isOver(day, job, nowMs)).map((day) => listDay(job, day)),
    )
    .sort((a, b) => b.date.localeCompare(a.date) || a.jobName.localeCompare(b.jobName));
  return {
    nowMs,
    checked: record.checked,
    record: {
      days: record.cases,
      needed: CASES_NEEDED,
      weight: record.weight,
      before: record.before,
      after: record.after,
    },
    sentence: recordWords(record),
    called: calledAs(last),
    score: last.length === 0 ? null : scoreOf(last),
    byLead: LEAD_CLASSES.flatMap(({ words }, lead) => {
      const of = all.filter((one) => one.lead === lead);
      return of.length === 0 ? [] : [{ lead: words, score: scoreOf(of) }];
    }),
    days: listed.slice(0, MOST_LISTED),
    daysLeftOut: Math.max(0, listed.length - MOST_LISTED),
    notes: NOTES,
  };
}

/** The calls of a day that count, judged, the nearest first; none where the day is no case. */
function judgedOf(day: CalledDay): Judged[] {
  const outcome = day.ended === null ? null : outcomeOfDay(day.ended);
  if (outcome === null) return [];
  return day.calls.map((call) => ({
    chance: call.shown,
    happened: outcome === 'finished',
    said: call.count === 0 ? 'none of the forecasts' : call.words,
    lead: leadClassOf(call.leadDays),
  }));
}

function isOver({ ended, date }: CalledDay, job: Job, nowMs: number): boolean {
  return ended !== null || date < localDayOf(nowMs, job.site.timeZone).date;
}

function listDay(job: Job, day: CalledDay): Listed {
  const { jobId, date, calls, ended } = day;
  return {
    jobId,
    jobName: job.name,
    timeZone: job.site.timeZone,
    date,
    went: ended?.went ?? null,
    because: ended?.because ?? null,
    entryId: ended?.id ?? null,
    whyNot: whyNoCase(day),
    calls: calls.map(listCall),
  };
}

function listCall(call: DayCall): Listed['calls'][number] {
  const { jobId: _job, date: _date, shrunk: _shrunk, forecastMs: _forecast, ...shown } = call;
  return { ...shown, lead: LEAD_CLASSES[leadClassOf(call.leadDays)]!.words };
}

function calledAs(last: readonly Judged[]): Hindsight['called'] {
  const bySaid = new Map<string, Judged[]>();
  for (const one of last) bySaid.set(one.said, [...(bySaid.get(one.said) ?? []), one]);
  const mean = (of: readonly Judged[]): number =>
    of.reduce((sum, { chance }) => sum + chance, 0) / of.length;
  return [...bySaid]
    .sort(([, a], [, b]) => mean(b) - mean(a))
    .map(([said, of]) => {
      const finished = of.filter(({ happened }) => happened).length;
      const words = `Of ${daysWords(of.length)} called ${said}, ${finished} finished.`;
      return { said, days: of.length, finished, words };
    });
}

function scoreOf(of: readonly Judged[]): Score {
  const finished = of.filter(({ happened }) => happened).length;
  const often = finished / of.length;
  const brier = brierScore(of);
  const usual = often * (1 - often);
  const skill = usual > 0 ? brierSkill(brier, usual) : null;
  const always = `always saying the usual ${Math.round(100 * often)} % would have scored ${usual.toFixed(3)}`;
  return {
    days: of.length,
    finished,
    brier,
    usual,
    skill,
    words: `Brier score ${brier.toFixed(3)} over ${daysWords(of.length)} (0 is best); ${always}.`,
  };
}

function recordWords({ cases, weight, before, after }: FirmRecord): string {
  if (cases < CASES_NEEDED) {
    return `${daysWords(cases)} with a known outcome; from ${CASES_NEEDED} on they correct the chances here.`;
  }
  const known = `${daysWords(cases)} with a known outcome`;
  if (weight === 0)
    return `${known}: no correction does better on days it has not seen, so the chances stay as given.`;
  const share = `${known} correct the chances here, by ${Math.round(100 * weight)} % of what they suggest`;
  return `${share}: on days left out the Brier score goes from ${before!.toFixed(3)} to ${after!.toFixed(3)}.`;
}

const daysWords = (days: number): string => (days === 1 ? '1 day' : `${days} days`);
