import { clockText, longDayText } from '../time/index.ts';

/**
 * The demo firm lives on a clock of its own: it starts at the issue time of the bundled invented
 * forecast each time the server starts, and runs on from there. Everyone else lives in the present.
 */
export interface FirmClocks {
  nowMs(demo: boolean): number;
}

/**
 * @param systemNowMs  the real clock, or a fixed one from `--now`
 * @param demoStartMs  issue time of the bundled forecast
 */
export function firmClocks(systemNowMs: () => number, demoStartMs: number): FirmClocks {
  const startedMs = systemNowMs();
  return {
    nowMs: (demo) => (demo ? demoStartMs + (systemNowMs() - startedMs) : systemNowMs()),
  };
}

/** 'Demo: Tuesday 12 May, 05:40; invented weather' */
export function demoBanner(nowMs: number, zone: string): string {
  return `Demo: ${longDayText(nowMs, zone)}, ${clockText(nowMs, zone)}; invented weather`;
}
