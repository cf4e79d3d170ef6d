import type { SiteEvent } from '../planner/index.ts';
import { standingLog } from '../products/index.ts';

/**
 * What stands of a site log, in the order things happened, by the same rule as on a phone without signal:
 * see `standingLog`.
 * @param events  [n], any order; each id once
 * @throws Error on two entries with one id, or undos that take each other back: no log the store accepts
 */
export function effectiveLog(events: readonly SiteEvent[]): SiteEvent[] {
  return standingLog(events);
}
