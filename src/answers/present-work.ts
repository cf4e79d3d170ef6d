import type { StopAnswer, Tried, WorkAnswer, WorkItem } from '../contract/index.ts';
import {
  checkStop,
  costLossThreshold,
  type DayHours,
  type DayOption,
  type DeckFit,
  type Prepared,
  type WorkLine,
} from '../planner/index.ts';
import { amountWords, materialOf, type SafeStop, sealWords } from '../stages/index.ts';
import type { Explained } from './explained.ts';
import { presentCosts, presentJob } from './present-days.ts';
import { presentOption } from './present-option.ts';
import { presentWeather } from './present-weather.ts';

export interface WorkParts {
  readonly prepared: Prepared;
  readonly option: DayOption;
  /** As the job itself splits into laying days. */
  readonly split: WorkAnswer['bay'];
  readonly explained: Explained;
  readonly tried: Tried;
  readonly lines: readonly WorkLine[];
  readonly hours: DayHours;
  readonly deckDry: DeckFit;
  readonly evening: readonly string[];
  readonly cautions: readonly string[];
  readonly sunriseMs: number | null;
  readonly sunsetMs: number | null;
}

/** One laying day as it crosses the wire. */
export function presentWork(parts: WorkParts): WorkAnswer {
  const { prepared, option, lines } = parts;
  const { job, limits, products } = prepared;
  const { work } = option.plan;
  const fieldLimits = products.field.limits;
  const rainSafe = lines.filter((line) => line.step.activity.forRainSafe).map((line) => line.endMs);
  return {
    job: presentJob(job),
    nowMs: prepared.nowMs,
    weather: presentWeather(prepared.grid, { zone: job.site.timeZone, nowMs: prepared.nowMs }),
    bay: { ...work.bay },
    day: presentOption(option, {
      rank: null,
      split: parts.split,
      explained: parts.explained,
    }),
    tried: { ...parts.tried },
    costs: presentCosts(job.costs),
    threshold: costLossThreshold(job.costs),
    sectionM2: work.sectionM2,
    evening: [...parts.evening],
    items: lines.map((line) => presentLine(line, prepared)),
    rainSafeMs: rainSafe.length > 0 ? Math.max(...rainSafe) : null,
    deckDry: parts.deckDry,
    nightSeal: {
      lengthM: work.nightSeal.lengthM,
      minutes: Math.round(option.plan.nightSealMs / 60_000),
    },
    stops: presentStops(option, lines),
    sunriseMs: parts.sunriseMs,
    sunsetMs: parts.sunsetMs,
    limits: {
      dewMarginMinK: Math.max(limits.dewMarginMinK, fieldLimits.dewMarginMinK?.value ?? 0),
      surfaceMinC: fieldLimits.surfaceMinC?.value ?? null,
      surfaceMaxC: fieldLimits.surfaceMaxC?.value ?? null,
      sheetWindMps: limits.sheetWindMps,
      gustMps: limits.sheetGustMps,
    },
    hours: parts.hours,
    cautions: [...parts.cautions],
    confidence: job.confidence,
  };
}

function presentLine(line: WorkLine, prepared: Prepared): WorkItem {
  const { activity } = line.step;
  const material = materialOf(activity, prepared.products, prepared.job.buildUp);
  return {
    id: activity.id,
    closes: activity.closes ?? null,
    stage: activity.stage,
    title: activity.title,
    startMs: line.startMs,
    endMs: line.endMs,
    earlyMs: line.earlyMs,
    lateMs: line.lateMs,
    people: line.people,
    quantity: activity.quantity === null ? null : { ...activity.quantity },
    product:
      material === null
        ? null
        : {
            id: material.product.id,
            name: material.product.name,
            amount: material.amount === null ? null : amountWords(material.amount, material.unit),
          },
    coats:
      activity.coats === undefined
        ? null
        : { productId: activity.coats.productId, surfaces: [...activity.coats.surfaces] },
    wait: line.wait === null ? null : { ...line.wait },
    clock: clockOf(line),
    rainAfter: line.rainAfter,
    lastSafeStartMs: line.lastSafeStartMs,
    holdPoints: [...activity.holdPoints],
    cautions: [
      ...new Set([
        ...activity.cautions,
        ...(activity.coats !== undefined ? (material?.product.hazards ?? []) : []),
      ]),
    ],
    ifRain: activity.ifRain,
    noReturn: activity.noReturn,
    oneGo: activity.oneGo,
  };
}

function clockOf(line: WorkLine): WorkItem['clock'] {
  if (line.clock === null) return null;
  const { touchDry, usableUntil } = line.clock;
  return {
    touchDryMs: touchDry?.midMs ?? null,
    touchDryEarlyMs: touchDry?.earlyMs ?? null,
    touchDryLateMs: touchDry?.lateMs ?? null,
    usableUntilMs: usableUntil?.midMs ?? null,
    closeWhileWet: line.step.film?.product.closing === 'wet',
  };
}

function presentStops({ plan }: DayOption, lines: readonly WorkLine[]): StopAnswer[] {
  const endOf = new Map(lines.map((line) => [line.step.activity.id, line.endMs]));
  const { job, products } = plan.prepared;
  const people = job.crew.people;
  const sealOf = ({ sealM }: SafeStop): string | null => {
    if (sealM === 0) return null;
    const amount = sealWords(products.nightSeal, sealM);
    return amount === null ? products.nightSeal.name : `${products.nightSeal.name}, ${amount}`;
  };
  return plan.work.stops.flatMap((stop) => {
    const fromMs = endOf.get(stop.after);
    if (fromMs === undefined) return [];
    const { stop: _stop, ...check } = checkStop(plan.prepared, stop, fromMs);
    const { after: _after, workerMin, ...told } = stop;
    const minutes = Math.round(workerMin / people);
    return [{ ...told, ...check, actions: [...told.actions], minutes, sealWith: sealOf(stop) }];
  });
}
