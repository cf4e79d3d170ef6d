import type { SiteEvent } from '../planner/index.ts';
import { effectiveLog } from '../record/index.ts';
import type { SiteReading } from '../weather/index.ts';

/**
 * Readings on the deck out of a job's site log. Undone entries do not count; air readings do not
 * re-anchor the surface and are left to the record.
 */
export function readingsOf(events: readonly SiteEvent[]): SiteReading[] {
  return effectiveLog(events).flatMap((event): SiteReading[] => {
    if (event.kind !== 'reading') return [];
    if (event.what !== 'surface-temp' && event.what !== 'moisture') return [];
    return [{ atMs: event.atMs, surfaceId: 'deck', kind: event.what, value: event.value }];
  });
}
