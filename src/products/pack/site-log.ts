import { readPack } from './read-pack.ts';
import { type LogEntry, standingLog } from './standing-log.ts';
import type { ClockPack, PackAnswer, PackShift, PackSurface } from './types.ts';

/** What a clock pack reads out of a site log; entries of every other kind are passed over. */
export type SiteEntry = LogEntry & {
  readonly activityId?: string;
  readonly productId?: string;
  readonly what?: string;
  readonly value?: number;
  readonly undoes?: string;
  readonly confirms?: string;
};

/** How a part of the roof is coated: its faces, and how long spreading it takes. */
export interface Coat {
  readonly surfaces: readonly PackSurface[];
  readonly spreadMs: number;
}

/** One coating that stands in the log. */
export interface SiteFilm {
  /** The 'coated' entry. */
  readonly id: string;
  readonly activityId: string;
  readonly productId: string;
  readonly surfaces: readonly PackSurface[];
  /** First and last square metre. */
  readonly coatedMs: number;
  readonly lastCoatedMs: number;
  /** The first 'touch dry' after it, as it counts for learning too. */
  readonly dry: {
    readonly id: string;
    readonly atMs: number;
    readonly confirmed: boolean;
  } | null;
  /** Brought together, or coated over again, at that moment. */
  readonly endedMs: number | null;
  /** False = the list no longer holds this part, and its faces are the usual ones of the product. */
  readonly listed: boolean;
}

export interface SiteClocks {
  readonly films: readonly SiteFilm[];
  readonly shifts: readonly PackShift[];
}

/**
 * What a site log says to a clock pack: the films that lie on the roof, and what was read and felt. The
 * entry 'coated' is made when the last square metre is down; the first lies `spreadMs` longer. 'touch-dry'
 * and 'closed' name the part that was coated, and mean its last coating before them. A part coated again
 * ends the film before. Entries from outside the time of the pack belong to another day, on which the same
 * names may stand for another part of the roof: they are passed over.
 * @param log  of one job, any order; undone entries leave no trace
 * @param coatOf  faces and spreading time of a part, null = not on the day's list
 */
export function siteClocks(
  pack: ClockPack,
  log: readonly SiteEntry[],
  coatOf: (activityId: string) => Coat | null,
): SiteClocks {
  const standing = standingLog(log);
  const endMs = pack.startMs + pack.steps * pack.stepMs;
  const ofDay = standing.filter(({ atMs }) => atMs >= pack.startMs && atMs < endMs);
  const confirmed = new Set(standing.flatMap(({ confirms }) => confirms ?? []));
  const films = filmsIn(pack, ofDay, confirmed, coatOf);
  const shifts = [
    ...ofDay.flatMap(readingShift),
    ...films.flatMap((film) => fingerShifts(pack, film)),
  ];
  return { films, shifts };
}

/** The clock of one film with all that was read and felt. */
export function askFilm(pack: ClockPack, film: SiteFilm, shifts: readonly PackShift[]): PackAnswer {
  const { productId, surfaces, coatedMs, lastCoatedMs } = film;
  return readPack(pack, { productId, surfaces, coatedMs, lastCoatedMs, shifts });
}

type Growing = { -readonly [K in keyof SiteFilm]: SiteFilm[K] };

function filmsIn(
  pack: ClockPack,
  ofDay: readonly SiteEntry[],
  confirmed: ReadonlySet<string>,
  coatOf: (activityId: string) => Coat | null,
): SiteFilm[] {
  const films: Growing[] = [];
  const last = new Map<string, Growing>();
  for (const { id, kind, atMs, activityId, productId } of ofDay) {
    if (activityId === undefined) continue;
    const before = last.get(activityId);
    if (kind === 'coated' && productId !== undefined) {
      const coat = coatOf(activityId);
      if (before !== undefined) before.endedMs ??= atMs;
      const film: Growing = {
        id,
        activityId,
        productId,
        surfaces: coat?.surfaces ?? usualSurfaces(pack, productId),
        coatedMs: atMs - Math.max(0, Math.round(coat?.spreadMs ?? 0)),
        lastCoatedMs: atMs,
        dry: null,
        endedMs: null,
        listed: coat !== null,
      };
      last.set(activityId, film);
      films.push(film);
    } else if (before === undefined) {
      // Nothing is logged that it could mean.
    } else if (kind === 'touch-dry' && atMs > before.lastCoatedMs) {
      before.dry ??= { id, atMs, confirmed: confirmed.has(id) };
    } else if (kind === 'closed') before.endedMs ??= atMs;
  }
  return films;
}

/** Primers, whose open time is plain time, and sealants lie on the laid sheet; all else on the deck. */
function usualSurfaces(pack: ClockPack, productId: string): readonly PackSurface[] {
  const product = pack.products.find(({ id }) => id === productId);
  if (product?.openEndsBy === 'time' || product?.closing === 'none') return ['sheet'];
  return product?.faces === 2 ? ['deck', 'folded-sheet'] : ['deck'];
}

/** Readings are taken on the deck, as for the plan; air readings other than humidity do not shift a clock. */
function readingShift({ id, kind, atMs, what, value }: SiteEntry): PackShift[] {
  if (kind !== 'reading' || value === undefined) return [];
  if (what === 'surface-temp') {
    return [{ id, atMs, kind: 'surface-temp', surface: 'deck', tempC: value }];
  }
  return what === 'rel-hum' ? [{ id, atMs, kind: 'rel-hum', relHumPct: value }] : [];
}

/**
 * 'Touch dry' says when the last face of a film got there. That face is taken to be the one reckoned
 * slowest; the others were dry by then, perhaps long before, and are never slowed down by it.
 */
function fingerShifts(pack: ClockPack, film: SiteFilm): PackShift[] {
  const { dry, productId, surfaces, lastCoatedMs } = film;
  if (dry === null) return [];
  const reckoned = askFilm(pack, film, []);
  const dryOn = (surface: PackSurface): number => {
    if (!reckoned.ok) return 0;
    const face = reckoned.faces.find((each) => each.surface === surface);
    return face?.touchDry?.midMs ?? Number.POSITIVE_INFINITY;
  };
  const lastMs = Math.max(...surfaces.map(dryOn));
  return surfaces.map((surface) => ({
    id: dry.id,
    atMs: dry.atMs,
    kind: 'touch-dry',
    productId,
    surface,
    coatedMs: lastCoatedMs,
    confirmed: dry.confirmed,
    noLater: dryOn(surface) < lastMs,
  }));
}
