/**
 * What happens on site is one append-only log. Clocks, learning, work state and the record are
 * derived from it; nothing in it is ever changed, only undone by a later event.
 */

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
    /** A 'touch-dry' entry that looked wrong was asked about, and is right. */
    | { readonly kind: 'confirm'; readonly confirms: string }
    | { readonly kind: 'undo'; readonly undoes: string }
  );
