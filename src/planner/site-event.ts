/**
 * What happens on site is one append-only log. Clocks, learning, work state and the record are
 * derived from it; nothing in it is ever changed, only undone by a later event.
 */

/** How a day on site really went, as a person says. */
export const DAY_ENDS = ['finished', 'shortened', 'stood-down', 'caught-open'] as const;
export type DayEnd = (typeof DAY_ENDS)[number];

/**
 * Why a day was cut short or stood down: the weather there was; the forecast, called off without having
 * seen that weather; or something else (a van, a delivery, a hand short).
 */
export const DAY_END_CAUSES = ['weather', 'forecast', 'other'] as const;
export type DayEndCause = (typeof DAY_END_CAUSES)[number];

interface EventBase {
  /** Made by the client (UUID), so that a repeat is recognised. */
  readonly id: string;
  readonly jobId: string;
  /** When it happened on site, as the person says. */
  readonly atMs: number;
  /** When it was written down; later than `atMs` for late entries. */
  readonly loggedMs: number;
  readonly actorId: string;
}

export type SiteEvent = EventBase &
  (
    | { readonly kind: 'opened' | 'touch-dry' | 'closed' | 'finished'; readonly activityId: string }
    | {
        readonly kind: 'coated';
        readonly activityId: string;
        readonly productId: string;
        readonly areaM2: number | null;
      }
    | {
        readonly kind: 'reading';
        readonly what: 'surface-temp' | 'air-temp' | 'rel-hum' | 'moisture' | 'wind';
        readonly value: number;
      }
    | {
        readonly kind: 'batch';
        readonly productId: string;
        readonly batch: string;
        readonly expires: string | null;
      }
    | { readonly kind: 'stop'; readonly reason: string }
    | { readonly kind: 'thunder-heard' | 'rain-safe' }
    | { readonly kind: 'note'; readonly text: string }
    /** The last one written down for a date is what counts. */
    | {
        readonly kind: 'day-ended';
        /** The day meant, local to the site: it may be logged later, and called off the evening before. */
        readonly date: string;
        readonly went: DayEnd;
        /** null = finished, or caught open. */
        readonly because: DayEndCause | null;
      }
    /** A 'touch-dry' entry that looked wrong was asked about, and is right. */
    | { readonly kind: 'confirm'; readonly confirms: string }
    | { readonly kind: 'undo'; readonly undoes: string }
  );
