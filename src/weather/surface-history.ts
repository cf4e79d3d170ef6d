import { inRange } from '../units/index.ts';
import type { FaceState } from './surface-core.ts';
import { anchorFace, type Ladder } from './surface-ladder.ts';
import type { SurfaceHistory, SurfaceSpec, WeatherGrid } from './types.ts';
import { panelSoakedMm } from './water-panel.ts';

/** What happens to a surface between two steps; `step` is the one that starts from it. */
export type SurfaceEvent =
  | { readonly step: number; readonly kind: 'opened'; readonly soakedMm: number | null }
  | { readonly step: number; readonly kind: 'covered' }
  | { readonly step: number; readonly kind: 'dried-down'; readonly leavesMm: number }
  | { readonly step: number; readonly kind: 'temperature'; readonly tempC: number }
  | { readonly step: number; readonly kind: 'moisture'; readonly soakedMm: number };

/** In the order in which things at one moment count: first what the surface is, then what was read on it. */
const ORDER = ['covered', 'opened', 'dried-down', 'temperature', 'moisture'] as const;

/**
 * The history of a surface on the steps of a grid, in order. What lies after the grid's end is left out;
 * opening, covering and moisture from before its start count at the start. A surface temperature or a
 * dry-down from before the start is past remembering and left out.
 * @throws RangeError on a value out of range (see `SurfaceHistory`), a time that is no number, or a
 *   surface covered before it is opened
 */
export function eventsOf(
  history: SurfaceHistory,
  spec: SurfaceSpec,
  grid: Pick<WeatherGrid, 'startMs' | 'stepMs' | 'steps'>,
): readonly SurfaceEvent[] {
  const { openedMs, coveredMs, moistureAtOpeningPct } = history;
  const stepOf = (name: string, ms: number): number => {
    inRange(name, ms, -8.64e15, 8.64e15);
    return Math.round((ms - grid.startMs) / grid.stepMs);
  };
  const events: SurfaceEvent[] = [];
  const soakedAtOpening =
    moistureAtOpeningPct === null
      ? spec.soakMaxMm > 0
        ? null
        : 0
      : panelSoakedMm(spec, moistureAtOpeningPct, 'moistureAtOpeningPct');
  if (openedMs !== null) {
    events.push({
      step: Math.max(0, stepOf('openedMs', openedMs)),
      kind: 'opened',
      soakedMm: soakedAtOpening,
    });
  }
  if (coveredMs !== null) {
    if (openedMs !== null && !(coveredMs >= openedMs)) {
      throw new RangeError(`coveredMs (${coveredMs}) must not lie before openedMs (${openedMs})`);
    }
    events.push({ step: Math.max(0, stepOf('coveredMs', coveredMs)), kind: 'covered' });
  }
  history.dryDowns.forEach(({ atMs, leavesMm }, i) => {
    inRange(`dryDowns[${i}].leavesMm`, leavesMm, 0, 10);
    events.push({ step: stepOf(`dryDowns[${i}].atMs`, atMs), kind: 'dried-down', leavesMm });
  });
  history.readings.forEach(({ atMs, surfaceId, kind, value }, i) => {
    if (surfaceId !== spec.id) return;
    const step = stepOf(`readings[${i}].atMs`, atMs);
    if (kind === 'surface-temp') {
      inRange(`readings[${i}].value`, value, -60, 110);
      events.push({ step, kind: 'temperature', tempC: value });
    } else if (kind === 'moisture') {
      const soakedMm = panelSoakedMm(spec, value, `readings[${i}].value`);
      events.push({ step: Math.max(0, step), kind: 'moisture', soakedMm });
    }
  });
  return events
    .filter(({ step }) => step >= 0 && step < grid.steps)
    .sort((a, b) => a.step - b.step || ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));
}

/** How a surface stands on site while it is stepped; changed in place. */
export interface Site {
  covered: boolean;
  moistureKnown: boolean;
  /** Last reading less what was forecast for it, as far as it has not faded [K]. */
  offK: number;
}

export function applyEvent(
  event: SurfaceEvent,
  ladder: Ladder,
  state: FaceState,
  site: Site,
): void {
  switch (event.kind) {
    case 'covered':
      site.covered = true;
      return;
    case 'opened':
      site.covered = false;
      state.filmMm = 0;
      if (event.soakedMm !== null) {
        state.soakedMm = event.soakedMm;
        site.moistureKnown = true;
      }
      return;
    case 'dried-down':
      state.filmMm = Math.min(state.filmMm, event.leavesMm);
      return;
    case 'temperature':
      site.offK = event.tempC - state.tempsC[0]!;
      anchorFace(ladder, state.tempsC, event.tempC);
      return;
    case 'moisture':
      state.soakedMm = event.soakedMm;
      site.moistureKnown = true;
      return;
  }
}
