import { MS_PER_MINUTE } from '../units/index.ts';
import {
  atShare,
  type Clock,
  type ClockRange,
  type Outside,
  type ScatterLevel,
  SHARES,
} from './clock.ts';
import { type DoseTable, whenReached, whenToCoat } from './dose.ts';
import type { ClockEvent, Product, RefTime } from './types.ts';

/*
 * A joint has a clock for each coated face: deck and folded-back sheet, upstand and sheet, top and
 * bottom of a lap. It can be closed once its last face is ready, counted from the last square metre
 * coated of each, and until its first face goes off, counted from the first.
 */

/** A coated face of a joint. */
export interface JointFace {
  readonly table: DoseTable;
  /** When its first and its last square metre were coated. */
  readonly firstMs: number;
  readonly lastMs: number;
}

/** Of all faces, the one that decides, by its place in the list, and its moment; null = not in the forecast. */
export interface Deciding {
  readonly face: number;
  readonly ms: number | null;
}

/** What a film waits for before it may be closed, and by which clock; null = it is closed at once. */
export function waitsFor(
  product: Product,
): { readonly event: ClockEvent; readonly time: RefTime } | null {
  if (product.closing === 'touch-dry' && product.touchDry !== null)
    return { event: 'touchDry', time: product.touchDry };
  // Cream time comes nearer as its end does.
  if (product.closing === 'wet' && product.closeFrom !== null)
    return { event: 'openUntil', time: product.closeFrom };
  return null;
}

/** The last face to be ready, counted from its last square metre. */
export function lastReady(
  product: Product,
  faces: readonly JointFace[],
  m: number,
  readyMin: number,
): Deciding {
  return latestOf(faces, waitsFor(product)?.event ?? 'openUntil', m, readyMin);
}

/** The last face to come to an event, counted from its last square metre. */
export function latestOf(
  faces: readonly JointFace[],
  event: ClockEvent,
  m: number,
  refMin: number,
): Deciding {
  let found: Deciding = { face: 0, ms: Number.NEGATIVE_INFINITY };
  for (let face = 0; face < faces.length; face += 1) {
    const { table, lastMs } = faces[face]!;
    const ms = whenReached(table, event, m, lastMs, refMin);
    if (ms === null) return { face, ms };
    if (ms > found.ms!) found = { face, ms };
  }
  return found;
}

/** The first face to go off, counted from its first square metre. */
export function firstOff(
  product: Product,
  faces: readonly JointFace[],
  m: number,
  openMin: number,
): Deciding {
  let found: Deciding = { face: 0, ms: null };
  for (let face = 0; face < faces.length; face += 1) {
    const { table, firstMs } = faces[face]!;
    const ms =
      product.openEndsBy === 'time'
        ? firstMs + openMin * MS_PER_MINUTE
        : whenReached(table, 'openUntil', m, firstMs, openMin);
    if (ms !== null && (found.ms === null || ms < found.ms)) found = { face, ms };
  }
  return found;
}

/**
 * When a joint may be closed in one forecast: closing must begin and end inside. Empty = the first
 * face goes off before the last is ready, and which; unknown = the forecast ends before either.
 */
export type JointWindow =
  | { readonly kind: 'open'; readonly fromMs: number; readonly untilMs: number | null }
  | {
      readonly kind: 'empty';
      /** The face that is not ready, and when it would be; null = not in the forecast. */
      readonly late: Deciding;
      readonly early: { readonly face: number; readonly ms: number };
    }
  | { readonly kind: 'unknown' };

/**
 * @param ready  how slow the faces may be in getting ready, of the product's scatter
 * @param open  how fast they may go off: 'highMin' and 'lowMin' give the window that holds whatever
 *   the tin, 'typicalMin' twice the one of an ordinary tin
 */
export function jointWindow(
  product: Product,
  faces: readonly JointFace[],
  m: number,
  ready: ScatterLevel,
  open: ScatterLevel,
): JointWindow {
  if (faces.length === 0) throw new RangeError('a joint has at least one coated face');
  if (product.openUntil === null) throw new RangeError(`${product.id} closes nothing`);
  const late = lastReady(product, faces, m, waitsFor(product)?.time[ready] ?? 0);
  const early = firstOff(product, faces, m, product.openUntil[open]);
  if (early.ms === null) {
    return late.ms === null
      ? { kind: 'unknown' }
      : { kind: 'open', fromMs: late.ms, untilMs: null };
  }
  if (late.ms === null || late.ms >= early.ms)
    return { kind: 'empty', late, early: { face: early.face, ms: early.ms } };
  return { kind: 'open', fromMs: late.ms, untilMs: early.ms };
}

/**
 * When a crew coats each face that coats the slowest first (shade before sun, the wall before the
 * sheet), so that all come ready together.
 * @param coatedMs  when the slowest face is coated
 * @returns per face [epoch ms], none before `coatedMs`; null where the forecast ends before they are ready
 */
export function slowestFirst(
  product: Product,
  tables: readonly DoseTable[],
  m: number,
  coatedMs: number,
  readyMin: number,
): readonly number[] | null {
  if (tables.length < 2 || readyMin === 0) return tables.map(() => coatedMs);
  const faces = tables.map((table): JointFace => ({ table, firstMs: coatedMs, lastMs: coatedMs }));
  const { face: slowest, ms: readyMs } = lastReady(product, faces, m, readyMin);
  if (readyMs === null) return null;
  const event = waitsFor(product)?.event ?? 'openUntil';
  return tables.map((table, face) =>
    face === slowest
      ? coatedMs
      : Math.max(coatedMs, whenToCoat(table, event, m, readyMs, readyMin) ?? coatedMs),
  );
}

/**
 * The clock of a joint, as `readClock` tells that of one face: readiness and curing of its last face
 * from its last square metre, the end of open time of its first from its first. With one face coated
 * at one moment the two are the same.
 */
export function readJoint(
  product: Product,
  faces: readonly JointFace[],
  outside: Outside | null = null,
): Clock {
  const memberCount = faces[0]!.table.film.memberCount;
  const { openUntil } = product;
  const last = (event: Exclude<ClockEvent, 'openUntil'>): ClockRange | null => {
    const time = product[event];
    if (time === null) return null;
    return spread(memberCount, (m, level) => latestOf(faces, event, m, time[level]).ms);
  };
  return {
    touchDry: last('touchDry'),
    usableUntil:
      openUntil === null
        ? null
        : spread(
            memberCount,
            (m, level) =>
              firstOff(product, faces, m, outside?.(m) ? openUntil.lowMin : openUntil[level]).ms,
          ),
    rainAfter: last('rainAfter'),
    footTraffic: last('footTraffic'),
    fullCure: last('fullCure'),
  };
}

function spread(
  memberCount: number,
  at: (m: number, level: ScatterLevel) => number | null,
): ClockRange {
  const share = (level: ScatterLevel) => atShare(memberCount, SHARES[level], (m) => at(m, level));
  return { earlyMs: share('lowMin'), midMs: share('typicalMin'), lateMs: share('highMin') };
}
