import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { answerClockPack } from '../../src/answers/index.ts';
import { readWeatherFile } from '../../src/feed/index.ts';
import { prepare } from '../../src/planner/index.ts';
import { type ClockRange, readClock, readPack } from '../../src/products/index.ts';
import { DEMO_NOW_MS, DEMO_WEATHER } from '../fixtures/cli/run-cli.ts';
import { jobOf } from '../fixtures/planner/job.ts';
import { HOUR_MS, MINUTE_MS } from '../fixtures/planner/weather.ts';

/**
 * How wide a pack's ranges are beside the clock's own, on the demo's 51 forecasts. The pack takes its
 * rates step by step over the forecasts, the clock its times forecast by forecast.
 */
const DATE = '2026-05-18';
const ready = jobOf('parish-room');
const width = ({ earlyMs, lateMs }: ClockRange): number | null =>
  earlyMs === null || lateMs === null ? null : lateMs - earlyMs;

describe('ranges of a clock pack', () => {
  const read = readWeatherFile(readFileSync(DEMO_WEATHER));
  if (!read.ok) throw new Error('the bundled forecast cannot be read');
  const hourly = read.weather;
  const prepared = prepare({ ...ready, hourly, nowMs: DEMO_NOW_MS });
  const made = answerClockPack(ready, hourly, DEMO_NOW_MS, DATE);
  if (!made.ok) throw new Error('no pack');
  const { pack } = made;

  const wider: number[] = [];
  const midOffMin: number[] = [];
  for (let hour = 4; hour < 14; hour += 0.5) {
    const coatedMs = Date.parse(`${DATE}T00:00:00Z`) + hour * HOUR_MS;
    for (const { productId, surface } of pack.clocks) {
      const answer = readPack(pack, { productId, surfaces: [surface], coatedMs, shifts: [] });
      if (!answer.ok) throw new Error(answer.why);
      const product = prepared.productById.get(productId)!;
      const clock = readClock(product, prepared.doses(productId, surface), coatedMs);
      for (const event of ['touchDry', 'usableUntil'] as const) {
        if (event === 'usableUntil' && product.openEndsBy === 'time') continue;
        const [mine, own] = [answer[event], clock[event]];
        if (mine === null || own === null || mine.midMs === null || own.midMs === null) continue;
        midOffMin.push(Math.abs(mine.midMs - own.midMs) / MINUTE_MS);
        const [mineMs, ownMs] = [width(mine), width(own)];
        if (mineMs !== null && ownMs !== null) wider.push(mineMs / ownMs);
      }
    }
  }
  const at = (values: readonly number[], share: number): number =>
    [...values].sort((a, b) => a - b)[Math.floor(share * values.length)]!;

  it('are as wide as the clock’s in the median, and 19 in 20 at most a tenth wider', () => {
    expect(wider.length).toBeGreaterThan(200);
    expect(at(wider, 0.5)).toBeGreaterThan(0.98);
    expect(at(wider, 0.5)).toBeLessThan(1.02);
    expect(at(wider, 0.05)).toBeGreaterThan(0.95);
    expect(at(wider, 0.95)).toBeLessThan(1.1);
  });

  it('have middle times within a minute of the clock’s in 9 of 10', () => {
    expect(at(midOffMin, 0.9)).toBeLessThan(1);
  });
});
