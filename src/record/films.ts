import type { SiteEvent } from '../planner/index.ts';

type Of<K extends SiteEvent['kind']> = SiteEvent & { readonly kind: K };
type Coated = Of<'coated'>;
export type DryEntry = SiteEvent & { readonly kind: 'touch-dry'; readonly activityId: string };

/** A 'touch dry' entry and the coating it belongs to, as far as there is one. */
export type LoggedFilm =
  | {
      readonly kind: 'film';
      readonly coated: Coated;
      readonly dry: DryEntry;
      /** Somebody was asked whether the entry is right, and said so. */
      readonly confirmed: boolean;
    }
  | {
      /** Cannot be true as logged: one of the two times is wrong. */
      readonly kind: 'impossible';
      readonly coated: Coated;
      readonly dry: DryEntry;
    }
  | {
      readonly kind: 'unpaired';
      /** The product of the coating it may have meant; null = none is logged for this part. */
      readonly coated: Coated | null;
      readonly dry: DryEntry;
      readonly why: string;
    };

/**
 * Pairs each 'touch dry' entry with the last coating of the same part before it. A part that is coated
 * again starts a new film; the first 'touch dry' after a coating is the one that counts.
 * @param log  of one job, as `effectiveLog` gives it
 */
export function filmsOf(log: readonly SiteEvent[]): LoggedFilm[] {
  const confirmed = new Set(
    log.flatMap((event) => (event.kind === 'confirm' ? [event.confirms] : [])),
  );
  const lastCoated = new Map<string, Coated>();
  const dried = new Set<string>();
  const films: LoggedFilm[] = [];
  for (const event of log) {
    if (event.kind === 'coated') lastCoated.set(event.activityId, event);
    if (event.kind !== 'touch-dry') continue;
    const dry = event as DryEntry;
    const coated = lastCoated.get(dry.activityId);
    if (coated === undefined) {
      films.push(withoutCoating(log, dry));
    } else if (dried.has(coated.id)) {
      const why = 'this film was logged as touch dry before; the first entry counts';
      films.push({ kind: 'unpaired', coated, dry, why });
    } else if (dry.atMs <= coated.atMs) {
      films.push({ kind: 'impossible', coated, dry });
    } else {
      dried.add(coated.id);
      films.push({ kind: 'film', coated, dry, confirmed: confirmed.has(dry.id) });
    }
  }
  return films;
}

function withoutCoating(log: readonly SiteEvent[], dry: DryEntry): LoggedFilm {
  const later = log.find(
    (event): event is Coated => event.kind === 'coated' && event.activityId === dry.activityId,
  );
  if (later !== undefined) return { kind: 'impossible', coated: later, dry };
  const why = 'no coating of this part is logged, so it is not known what was touch dry';
  return { kind: 'unpaired', coated: null, dry, why };
}
