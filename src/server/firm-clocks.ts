import { clockText, longDayText } from '../time/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';

/**
 * The demo firm lives on a clock of its own: it starts at the issue time of the bundled invented
 * forecast each time the server starts, and runs on from there. Everyone else lives in the present.
 */
export interface FirmClocks {
  nowMs(demo: boolean): number;
  /**
   * The present as plans are made for it: the last five-minute line of the weather, so that what is asked
   * within minutes is one plan and its days, order of work and clocks agree.
   */
  planMs(demo: boolean): number;
}

const PLAN_STEP_MS = 5 * MS_PER_MINUTE;

/**
 * @param systemNowMs  the real clock, or a fixed one from `--now`
 * @param demoStartMs  issue time of the bundled forecast
 */
export function firmClocks(systemNowMs: () => number, demoStartMs: number): FirmClocks {
  const startedMs = systemNowMs();
  const nowMs = (demo: boolean): number =>
    demo ? demoStartMs + (systemNowMs() - startedMs) : systemNowMs();
  return { nowMs, planMs: (demo) => Math.floor(nowMs(demo) / PLAN_STEP_MS) * PLAN_STEP_MS };
}

/** 'Demo: Tuesday 12 May, 05:40; invented weather' */
export function demoBanner(nowMs: number, zone: string): string {
  return `Demo: ${longDayText(nowMs, zone)}, ${clockText(nowMs, zone)}; invented weather`;
}
