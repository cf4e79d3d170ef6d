import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { answerDays, answerWork, runThrough } from '../../src/answers/index.ts';
import { readWeatherFile } from '../../src/feed/index.ts';
import { clockText, spanText } from '../../src/time/index.ts';
import { type JobName, jobOf } from '../fixtures/planner/job.ts';
import { faultsIn } from '../fixtures/planner/order-of-work.ts';

/**
 * The demo's four jobs under its 51 invented forecasts, as a page a person can read through.
 *
 * These pages are a guard against changes nobody meant, not a statement of what is true: they hold
 * our own output. When a change to physics, products or planner moves them, read what has moved, ask
 * whether it should have, and only then make them anew: vitest with `-u`.
 */

const hourly = (() => {
  const file = new URL('../../data/demo/ensemble.json', import.meta.url);
  const read = readWeatherFile(readFileSync(file));
  if (!read.ok) throw new Error(JSON.stringify(read.issues));
  return read.weather;
})();
const nowMs = hourly.source.issuedMs!;
const JOBS: readonly JobName[] = ['boat-store', 'parish-room', 'seed-workshop', 'net-hall'];

/** Worked out once for all tests here. */
function once<T>(make: (name: JobName) => T): (name: JobName) => T {
  const made = new Map<JobName, T>();
  return (name) => {
    if (!made.has(name)) made.set(name, make(name));
    return made.get(name)!;
  };
}

type Days = ReturnType<typeof daysOf>;
const daysOf = once((name) =>
  runThrough(answerDays(jobOf(name), hourly, nowMs, { depth: 'quick' })),
);

function pageOf(name: JobName, answer: Days): string {
  const zone = answer.job.timeZone;
  const at = (ms: number | null): string => (ms === null ? '--:--' : clockText(ms, zone));
  const lines = answer.days.map((day) => {
    const { finished, shortened, stoodDown, caughtOpen, unknown } = day.outcomes;
    const counts = `${finished} finish, ${shortened} shortened, ${stoodDown} stood down, ${caughtOpen} caught open, ${unknown} unknown`;
    if (day.chance === null) return `${day.date}  ${day.sentence}`;
    return `${day.date}  ${day.verdict.padEnd(8)} rank ${day.rank ?? '-'}  start ${at(day.startMs)}  rain-safe ${at(day.rainSafeByMs)}  ${day.chance.words}: ${counts}; ${day.reasons[0]?.rule ?? 'nothing'} stops it first`;
  });
  const best = answer.days.find((day) => day.rank === 1);
  return [
    `${answer.job.name}: bay ${answer.bay.number} of ${answer.bay.of}, ${answer.bay.areaM2.toFixed(1)} m2`,
    `asked ${spanText(nowMs - hourly.startMs)} into the forecast`,
    ...lines,
    '',
    ...(best === undefined ? [] : workPage(name, best.date, at)),
    '',
  ].join('\n');
}

function workPage(name: JobName, date: string, at: (ms: number | null) => string): string[] {
  const { items, sectionM2, nightSeal } = bestDayOf(name);
  return [
    `The order of work on ${date}, sections of ${sectionM2.toFixed(1)} m2, night seal ${nightSeal.minutes} min`,
    ...items.map(
      (item) =>
        `${at(item.startMs)}-${at(item.endMs)}  ${item.id}${item.lastSafeStartMs === null ? '' : `, last safe start ${at(item.lastSafeStartMs)}`}`,
    ),
  ];
}

const bestDayOf = once((name) => {
  const best = daysOf(name).days.find((day) => day.rank === 1)!;
  const work = answerWork(jobOf(name), hourly, nowMs, best.date);
  if (!work.ok) throw new Error(JSON.stringify(work.issues));
  return work.answer;
});

describe('the demo’s jobs', () => {
  it.each(JOBS)('come out as they did when last read through: %s', async (name) => {
    await expect(pageOf(name, daysOf(name))).toMatchFileSnapshot(`demo/${name}.txt`);
  });

  it.each(JOBS)('have a best day that reads without a fault: %s', (name) => {
    const work = bestDayOf(name);
    expect(work.items.length).toBeGreaterThan(20);
    expect(faultsIn(work)).toEqual([]);
  });

  it.each(JOBS)('have every product of the day on the list of the evening before: %s', (name) => {
    const { evening, items } = bestDayOf(name);
    const names = new Set(items.flatMap((item) => item.product?.name ?? []));
    expect(names.size).toBeGreaterThan(1);
    for (const product of names)
      expect(
        evening.some((line) => line.includes(product)),
        product,
      ).toBe(true);
  });
});
