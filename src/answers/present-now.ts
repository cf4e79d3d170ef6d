import type { NowAnswer, NowFilm, NowTask } from '../contract/index.ts';
import {
  CAUTIONS,
  type DayPlan,
  type FilmNow,
  type NextTask,
  type NowAdvice,
  nowSentence,
  offRoofWords,
  WAY_WORDS,
} from '../planner/index.ts';
import { presentChance } from './present-chance.ts';
import { presentCosts, presentJob } from './present-days.ts';
import { presentWeather } from './present-weather.ts';

export interface NowParts {
  readonly advice: NowAdvice;
  readonly nowMs: number;
  readonly askedMs: number;
  readonly thunderMs: number | null;
  readonly notes: readonly string[];
  /** The job's own sentences to show with every answer. */
  readonly extra: readonly string[];
}

/** The best way on as it crosses the wire. */
export function presentNow({
  advice,
  nowMs,
  askedMs,
  thunderMs,
  notes,
  extra,
}: NowParts): NowAnswer {
  const { plan, offRoof, closeUp } = advice;
  const { prepared, work, steps } = plan;
  const { job } = prepared;
  const next = advice.finished ? [] : advice.next.map((task) => presentTask(plan, task));
  const hazards = advice.next.flatMap(({ n }) => {
    const { activity } = steps[n]!;
    const product = activity.coats && prepared.productById.get(activity.coats.productId);
    return [...activity.cautions, ...(product?.hazards ?? [])];
  });
  return {
    job: presentJob(job),
    nowMs,
    atMs: askedMs,
    weather: presentWeather(prepared.grid, { zone: job.site.timeZone, nowMs: askedMs }),
    bay: { ...work.bay },
    sectionM2: work.sectionM2,
    people: job.crew.people,
    sentence: nowSentence(advice, thunderMs),
    call: advice.finished ? 'finished' : offRoof !== null ? 'off-roof' : advice.does,
    offRoof:
      offRoof === null
        ? null
        : { ...offRoof, words: offRoofWords(offRoof, thunderMs, job.site.timeZone) },
    opened: advice.opened,
    rainSafe: advice.rainSafe,
    chance: presentChance(advice.chance),
    inHand: inHandOf(advice),
    next,
    films: advice.films.map((film) => presentFilm(plan, film)),
    closeUp: {
      minutes: closeUp.minutes,
      startByMs: advice.closeUpByMs,
      actions: closeUp.actions.map((action) => ({ ...action })),
    },
    stopOpeningMs: advice.stopOpeningMs,
    rain: { seenMs: advice.seenRainMs, foreseenMs: advice.foreseenRainMs },
    ways: advice.finished
      ? []
      : advice.ways.map(({ id, outcomes, expectedCost }) => ({
          id,
          words: WAY_WORDS[id],
          outcomes: { ...outcomes },
          expectedCost: Math.round(expectedCost),
          chosen: id === advice.does,
        })),
    costs: presentCosts(job.costs),
    notes: [...notes],
    cautions: [...new Set([...CAUTIONS, ...hazards, ...extra])],
  };
}

function presentTask(plan: DayPlan, { n, startMs, endMs }: NextTask): NowTask {
  const { activity } = plan.steps[n]!;
  return {
    id: activity.id,
    title: activity.title,
    startMs,
    endMs,
    people: Math.min(plan.prepared.job.crew.people, activity.maxPeople),
    closes: activity.closes ?? null,
    holdPoints: [...activity.holdPoints],
  };
}

function inHandOf({ plan, found, atMs }: NowAdvice): NowAnswer['inHand'] {
  if (found.inHand === null) return null;
  const { n, startMs } = found.inHand;
  const { activity, durationMs } = plan.steps[n]!;
  const { id, title } = activity;
  return { id, title, startMs, endMs: Math.max(atMs, startMs + durationMs) };
}

function presentFilm(plan: DayPlan, { n, ...film }: FilmNow): NowFilm {
  const { activity, film: clock } = plan.steps[n]!;
  const name = activity.title.slice(activity.title.indexOf(': ') + 2);
  return { id: activity.id, name, product: clock!.product.name, ...film };
}
