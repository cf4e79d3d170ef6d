import type { TakeoffAnswer } from '../contract/index.ts';
import { CAUTIONS, fairDays, type Job } from '../planner/index.ts';
import {
  type JobSheets,
  jobSheets,
  layingBays,
  measureRoof,
  type OutlineRoof,
  outlineOf,
  type RoofMeasures,
  roofIssues,
} from '../roof/index.ts';
import { materialsFor, type StageRow } from '../stages/index.ts';
import { drawJobRoof } from './draw-job-roof.ts';
import type { ProductShelf, ReadyJob } from './job.ts';
import { productChoices } from './product-choices.ts';

/** 'What does this roof ask for?': quantities, sheets, materials, stages, days and stops, without weather. */
export function answerTakeoff(ready: ReadyJob, shelf: ProductShelf): TakeoffAnswer {
  const { job, products } = ready;
  const { table, bayAreaM2, days } = fairDays(job, products);
  const bays = layingBays(job.roof, bayAreaM2);
  const sheets = jobSheets(bays, job.layout);
  const outline = outlineOf(job.roof);
  const measures = measureRoof(outline);
  const warnings = [
    ...roofIssues(job.roof)
      .filter(({ level }) => level === 'warn')
      .map(({ message }) => message),
    ...table.warnings,
  ];
  return {
    job: { id: job.id, name: job.name },
    roof: presentRoof(outline, measures),
    sheets: { ...presentSheets(sheets), change: changeOf(job, bayAreaM2, sheets) },
    materials: materialsFor(table.days, products, job.buildUp).map(({ product, ...line }) => ({
      id: product.id,
      name: product.name,
      ...line,
      coverage: {
        value: product.coverage.value,
        unit: product.coverage.unit,
        source: product.coverage.source,
      },
    })),
    choices: productChoices(ready, shelf),
    stages: table.rows.map(presentStage),
    days: table.days.map((day, i) => ({
      number: day.bay.number,
      areaM2: day.bay.areaM2,
      nightSealM: bays[i]?.nightSealM ?? 0,
      sectionM2: day.sectionM2,
      workerMin: day.activities.reduce((sum, activity) => sum + activity.workerMin, 0),
      rainSafeMin: days[i]!.rainSafeMin,
      finishMin: days[i]!.finishMin,
      stops: day.stops.map(({ kind, title, allowed, why, sealM, workerMin, looseM2 }) => ({
        kind,
        title,
        allowed,
        why,
        sealM,
        workerMin,
        looseM2,
      })),
    })),
    people: job.crew.people,
    warnings: [...new Set(warnings)],
    drawing: drawJobRoof(job, sheets),
    cautions: [...CAUTIONS, ...(ready.notes ?? [])],
  };
}

function presentRoof(outline: OutlineRoof, measures: RoofMeasures): TakeoffAnswer['roof'] {
  const { features, cornerCounts } = measures;
  return {
    planM2: measures.planM2,
    surfaceM2: measures.surfaceM2,
    fieldM2: measures.fieldM2,
    perimeterStripM2: measures.perimeterStripM2,
    perimeterM: measures.perimeterM,
    turnUpM2: measures.turnUpM2 + measures.rooflightTurnUpM2,
    turnDownM2: measures.turnDownM2,
    edges: measures.areas.flatMap((area, a) =>
      area.edges.map(({ index, kind, lengthM, upstandMm }) => ({
        area: area.areaId,
        number: index + 1,
        name: outline.areas[a]!.edges[index]!.side ?? `edge ${index + 1}`,
        kind,
        lengthM,
        upstandMm,
      })),
    ),
    corners: {
      internal: cornerCounts.internal,
      external: cornerCounts.external,
      upstandEnds: cornerCounts.upstandEnds,
    },
    outlets: features.outlet,
    pipes: features.pipe,
    rooflights: features.rooflight,
  };
}

function presentSheets(sheets: JobSheets): Omit<TakeoffAnswer['sheets'], 'change'> {
  const along = (kind: 'side' | 'end' | 'join'): number =>
    sheets.laps.reduce((sum, lap) => sum + (lap.kind === kind ? lap.lengthM : 0), 0);
  return {
    pieces: sheets.sheets.map(({ number, bay, lengthM, widthM, rollWidthM }) => ({
      number,
      bay,
      lengthM,
      widthM,
      rollWidthM,
    })),
    laps: { sideM: along('side'), endM: along('end'), joinM: along('join') },
    tJoints: sheets.tJoints,
    rolls: sheets.rolls.map((roll) => ({ ...roll, cuts: roll.cuts.map((cut) => ({ ...cut })) })),
    orders: sheets.orders.map(({ widthM, lengthM, count }) => ({ widthM, lengthM, count })),
    boughtM2: sheets.boughtM2,
    cutM2: sheets.cutM2,
    wastePct: sheets.wastePct,
    rollsRunDeg: [...new Set(sheets.pieces.map(({ layout }) => layout.rollsRunDeg))],
    notes: [...sheets.notes],
  };
}

/** Against the same days with the layout that is searched for. */
function changeOf(job: Job, bayAreaM2: number, now: JobSheets): TakeoffAnswer['sheets']['change'] {
  if (Object.keys(job.layout.choices ?? {}).length === 0) return null;
  const { choices: _choices, ...offer } = job.layout;
  const searched = jobSheets(layingBays(job.roof, bayAreaM2), offer);
  const lapM = (sheets: JobSheets): number =>
    sheets.laps.reduce((sum, lap) => sum + lap.lengthM, 0);
  return {
    lapM: lapM(now) - lapM(searched),
    sheets: now.sheets.length - searched.sheets.length,
    tJoints: now.tJoints - searched.tJoints,
    boughtM2: now.boughtM2 - searched.boughtM2,
    wastePct: now.wastePct - searched.wastePct,
  };
}

function presentStage({ from, quantity, lag, ...row }: StageRow): TakeoffAnswer['stages'][number] {
  return {
    ...row,
    days: [...row.days],
    quantity: quantity === null ? null : { ...quantity },
    from: from.map(({ rate, figures: { typical, low, high, unit, source } }) => ({
      rate,
      typical,
      low,
      high,
      unit,
      source,
    })),
    lag: lag === null ? null : { ...lag },
    rules: [...row.rules],
    holdPoints: [...row.holdPoints],
    cautions: [...row.cautions],
  };
}
