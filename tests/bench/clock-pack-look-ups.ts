import { join } from 'node:path';
import { answerClockPack, type ProductShelf, parseJob, readyJob } from '../../src/answers/index.ts';
import { readPack } from '../../src/products/index.ts';
import { loadDemo } from '../../src/store/index.ts';
import type { HourlyWeather } from '../../src/weather/index.ts';
import { randomQuestions } from '../fixtures/planner/clock-pack.ts';

const LOOK_UPS = 10_000;

/** Asks a demo job's pack of the day after the forecast, with all that may be read and felt on site. */
export function packLookUps(hourly: HourlyWeather, nowMs: number, shelf: ProductShelf) {
  const dataDir = join(import.meta.dirname, '..', '..', 'data');
  const ready = readyJob(loadDemo(dataDir, parseJob).jobs[0]!, shelf);
  if (!ready.ok) throw new Error(ready.issues[0]?.message);
  const date = new Date(nowMs + 86_400_000).toISOString().slice(0, 10);
  const made = answerClockPack(ready, hourly, nowMs, date);
  if (!made.ok) throw new Error(made.issues[0]?.message);
  const { pack } = made;
  const questions = randomQuestions(pack, LOOK_UPS, 1);
  return (): number => questions.filter((question) => readPack(pack, question).ok).length;
}
