import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { answerDays, answerWork, parseJob, readyJob, runThrough } from '../../src/answers/index.ts';
import { readWeatherFile } from '../../src/feed/index.ts';
import {
  adviseNow,
  type Prepared,
  planInUse,
  prepare,
  searchDays,
  settleState,
  shiftOn,
} from '../../src/planner/index.ts';
import { buildDoseTable, parseProduct, readClock } from '../../src/products/index.ts';
import { roofLie } from '../../src/roof/index.ts';
import { layOutOutlineSheets } from '../../src/roof/sheets/index.ts';
import { loadDemo, loadShelf } from '../../src/store/index.ts';
import { localDayOn } from '../../src/time/index.ts';
import { MS_PER_MINUTE } from '../../src/units/index.ts';
import { surfaceWeather } from '../../src/weather/index.ts';
import { ROOFS } from '../fixtures/weather/any-weather.ts';
import { packLookUps } from './clock-pack-look-ups.ts';
import { LARGE_ROOF } from './large-roof.ts';
import { findDays, layAndStage } from './large-roof-days.ts';
import { plansAhead, runDays, withRoofWeather } from './planning.ts';
import { afterOneUpdate, firstPlan, gapTable, largeAsk } from './programme.ts';
import { longestGrid } from './surface-grid.ts';

/*
 * Speed, as times and as ratios to a yardstick run in between: this machine may be busy, and another
 * one faster, but the ratio of two things measured side by side holds. Never part of `npm test`.
 */

const RUNS = Number(process.env['LAYFAIR_BENCH_RUNS'] ?? 7);
const dataDir = join(import.meta.dirname, '..', '..', 'data');

/** A fixed piece of arithmetic of the planner's own kind: exponentials over a typed array. */
function yardstick(): number {
  const column = new Float64Array(1_000_000);
  let sum = 0;
  for (let i = 0; i < column.length; i += 1) {
    column[i] = 6.112 * Math.exp((17.62 * (i % 40)) / (243.12 + (i % 40)));
    sum += column[i]!;
  }
  return sum;
}

function timed(work: () => unknown): number {
  const from = performance.now();
  work();
  return performance.now() - from;
}

interface Row {
  readonly what: string;
  readonly ms: number[];
  readonly ratio: number[];
}

function measure(what: string, work: () => unknown): Row {
  return measureOn(what, () => undefined, work);
}

/** @param given  what the work is done on, made anew each time and not timed */
function measureOn<T>(what: string, given: () => T, work: (on: T) => unknown): Row {
  const row: Row = { what, ms: [], ratio: [] };
  const once = (): number => {
    const on = given();
    return timed(() => work(on));
  };
  once();
  for (let n = 0; n < RUNS; n += 1) {
    const stick = timed(yardstick);
    const ms = once();
    row.ms.push(ms);
    row.ratio.push(ms / stick);
  }
  return row;
}

const at = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[
    Math.min(values.length - 1, Math.floor(share * values.length))
  ]!;

function print({ what, ms, ratio }: Row): void {
  const spread = `${at(ms, 0).toFixed(0)}-${at(ms, 1).toFixed(0)}`;
  console.log(
    `| ${what} | ${at(ms, 0.5).toFixed(0)} | ${spread} | ${at(ratio, 0.5).toFixed(1)} | ${at(ratio, 0).toFixed(1)}-${at(ratio, 1).toFixed(1)} |`,
  );
}

const bytes = readFileSync(join(dataDir, 'demo', 'ensemble.json'));
const read = readWeatherFile(bytes);
if (!read.ok) throw new Error(read.issues[0]?.message);
const hourly = read.weather;
const nowMs = hourly.source.issuedMs;
if (nowMs === null) throw new Error('the demo forecast has no issue time');
const shelf = loadShelf(dataDir, parseProduct);

console.log(
  `Node ${process.version}, ${RUNS} runs each after one to warm up; ${hourly.members.length} forecasts, ${hourly.hours} hours.`,
);
console.log('| what | median ms | fastest-slowest | median ratio to yardstick | spread |');
console.log('|---|---|---|---|---|');
print(measure('read the ensemble file', () => readWeatherFile(bytes)));
for (const job of loadDemo(dataDir, parseJob).jobs) {
  const ready = readyJob(job, shelf);
  if (!ready.ok) throw new Error(ready.issues[0]?.message);
  const area = roofLie(job.roof).areaM2.toFixed(0);
  print(
    measure(`${job.name} (${area} m²): weather on the roof`, () => {
      const prepared = prepare({ ...ready, hourly, nowMs });
      for (const kind of ['deck', 'sheet', 'folded-sheet'] as const) prepared.surface(kind);
    }),
  );
  const roofKnown = (): Prepared => withRoofWeather(ready, hourly, nowMs);
  print(measureOn(`${job.name}: plans of all days after roof weather`, roofKnown, plansAhead));
  print(
    measureOn(
      `${job.name}: first answer after roof weather (no more than 600 ms)`,
      roofKnown,
      (prepared) => runThrough(searchDays(prepared, 'quick')),
    ),
  );
  const plans = plansAhead(roofKnown());
  print(
    measure(
      `${job.name}: 1,000 runs of a day of ${plans[0]!.steps.length} tasks (no more than 40 ms)`,
      () => runDays(plans, 1000),
    ),
  );
  print(
    measureOn(
      `${job.name}: full search after roof weather (no more than 5,000 ms)`,
      roofKnown,
      (prepared) => runThrough(searchDays(prepared, 'full')),
    ),
  );
  const days = runThrough(answerDays(ready, hourly, nowMs)).days;
  print(
    measure(`${job.name}: all laying days`, () => runThrough(answerDays(ready, hourly, nowMs))),
  );
  const best = days.find((day) => day.rank === 1);
  if (best !== undefined) {
    print(
      measure(`${job.name}: order of work, ${best.date}`, () =>
        answerWork(ready, hourly, nowMs, best.date),
      ),
    );
  }
}
print(
  measure(
    '2,000 m² with 60 features in 16 days or more, laid out and staged (no more than 150 ms)',
    () => layAndStage(130),
  ),
);
print(measure('2,000 m² with 60 features: fewest laying days', findDays));
for (const job of loadDemo(dataDir, parseJob).jobs) {
  const ready = readyJob(job, shelf);
  if (!ready.ok) throw new Error(ready.issues[0]?.message);
  const day = localDayOn('2026-05-14', job.site.timeZone);
  const shift = shiftOn(job.crew, day, job.site.timeZone);
  const prepared = prepare({ ...ready, hourly, nowMs: shift.startMs });
  const atMs = shift.startMs + 180 * MS_PER_MINUTE;
  const state = {
    done: [{ name: '..fold-1', atMs: null }],
    coated: [
      { name: 'field-1-1', firstMs: atMs - 900_000, lastMs: atMs - 480_000, touchDryMs: null },
    ],
    inHand: null,
    thunderMs: null,
    rainInMin: null,
    implies: true,
  };
  print(
    measure(`${job.name}: the way on from mid-job (no more than 200 ms)`, () => {
      const plan = planInUse(prepared, shift, ['field-1-1']);
      const found = settleState(plan, state, atMs, String);
      if (!found.ok) throw new Error(found.issues[0]?.message);
      return adviseNow(plan, found.found, atMs, state);
    }),
  );
}
print(measure('10 000 look-ups in a clock pack', packLookUps(hourly, nowMs, shelf)));
print(
  measure('sheets for a roof of 2,000 m² with 60 features (no more than 100 ms)', () =>
    layOutOutlineSheets(LARGE_ROOF),
  ),
);
const long = longestGrid();
print(
  measure('three surfaces under 51 forecasts x 16 days (no more than 300 ms)', () => {
    const grid = { ...long };
    for (const roof of ['bare board', 'sheet on a board', 'folded sheet'])
      surfaceWeather(grid, ROOFS[roof]!, 50);
  }),
);
const before = process.memoryUsage().arrayBuffers;
const held = ['bare board', 'sheet on a board', 'folded sheet'].map((roof) =>
  surfaceWeather({ ...long }, ROOFS[roof]!, 50),
);
const tookMB = (process.memoryUsage().arrayBuffers - before) / 1e6;
console.log(
  `Typed arrays taken by ${held.length} surfaces: ${tookMB.toFixed(0)} MB (no more than 100).`,
);

const oneForecast = {
  ...long,
  memberCount: 1,
  toFilm: 0.6,
  substrateWm2K: 9,
  surfaceTempC: long.airTempC,
  knownSteps: long.knownSteps.subarray(0, 1),
};
for (const id of ['contact-solvent', 'deck-adhesive-two-side', 'lap-sealant']) {
  const product = shelf.get(id);
  if (product === undefined) throw new Error(`no product '${id}'`);
  const table = buildDoseTable(product, oneForecast);
  print(
    measure(`10 000 clocks of ${id} in one forecast of 16 days (no more than 50 ms)`, () => {
      for (let n = 0; n < 10_000; n += 1)
        readClock(product, table, long.startMs + n * 2 * MS_PER_MINUTE);
    }),
  );
}

const programme = largeAsk(2);
const firstly = firstPlan(programme);
print(
  measure('first plan of 300 jobs, 15 crews, 14 days, from day values (no more than 5 s)', () =>
    firstPlan(programme),
  ),
);
print(
  measure(
    'its re-plan after one roof has turned wet (no more than 5 s)',
    afterOneUpdate(programme, firstly),
  ),
);
console.log(await gapTable());
