import {
  atShare,
  type Clock,
  type DoseTable,
  firstOff,
  lastReady,
  latestOf,
  type Product,
  readJoint,
  type ScatterLevel,
  SHARES,
  type SheetFlags,
  waitsFor,
} from '../products/index.ts';
import {
  coldNightAfter,
  isOutside,
  type LiesOpen,
  MOST,
  type OutsideReason,
  outsideReasons,
  rainOn,
  type Spoilt,
} from './clock-outside.ts';
import { sentenceOf, whyNot } from './clock-words.ts';

/** One coated face of what is asked about. */
export interface AskedFace {
  /** As the end of a sentence: 'the folded-back sheet'. */
  readonly words: string;
  readonly table: DoseTable;
  readonly flags: SheetFlags;
}

/** 'I coated from then to then: when is it ready, and until when?' */
export interface ClockAsked {
  readonly product: Product;
  /** One or more, under the same forecasts. */
  readonly faces: readonly AskedFace[];
  /** First and last square metre coated, the same on every face. */
  readonly coatedMs: number;
  readonly coatedUntilMs: number;
  /** When it was or will be brought together; null = not said. */
  readonly closedMs: number | null;
  /** Present time, where the film is already down; null = not said. */
  readonly nowMs: number | null;
  readonly timeZone: string;
  /** The forecasts were made from a single one. */
  readonly made?: boolean;
}

export interface ClockSpan {
  readonly fromMs: number;
  /** Null = beyond what the forecasts reach. */
  readonly untilMs: number | null;
}

/**
 * When to bring the faces together. 'any-tin' holds from the slow end of getting ready to the fast end
 * of going off; 'finger' = no such time, but from the moment the finger finds it ready there is one;
 * 'none' = the first face goes off before the last is ready, in an ordinary tin too.
 */
export type ClosingWindow =
  | { readonly kind: 'any-tin'; readonly sure: ClockSpan; readonly likely: ClockSpan }
  | { readonly kind: 'finger'; readonly likely: ClockSpan; readonly leastOpenMs: number | null }
  | {
      readonly kind: 'none';
      /** Places in the list of faces: which is not ready, and which goes off first. */
      readonly lateFace: number;
      readonly earlyFace: number;
      readonly readyMs: number | null;
      readonly expiresMs: number;
    };

export interface ClockAnswerParts {
  readonly clock: Clock;
  /** The same for each face by itself. */
  readonly faces: readonly Clock[];
  /** Null where nothing is brought together, or the forecasts end first. */
  readonly window: ClosingWindow | null;
  readonly wontDry: string | null;
  /** Broken while it lies open, each in some forecast; see `outside` for the ones that count. */
  readonly reasons: readonly OutsideReason[];
  /** Broken in most forecasts: it is outside the data sheet and not to be called ready. */
  readonly outside: readonly OutsideReason[];
  /** Broken in most forecasts later on, before it goes off: it must be together by then. */
  readonly later: readonly OutsideReason[];
  /** Rain on the open film before it goes off or skins; null where nothing lies open. */
  readonly rain: Spoilt | null;
  readonly coldNight: Spoilt | null;
  readonly sentence: string;
}

/**
 * Answers with ranges over forecasts and product scatter. Speed and permission are kept apart: broken
 * limits and rain never stop the clock; they are told beside it, and withhold 'ready'.
 */
export function askClock(asked: ClockAsked): ClockAnswerParts {
  const { product, faces, coatedUntilMs } = asked;
  const joint = jointOf(asked);
  const flags = faces.map((face) => face.flags);
  const open = liesOpen(asked, joint);
  const reasons = outsideReasons(flags, open.untilReady);
  const outside = reasons.filter(inMost);
  const known = outside.map((reason) => reason.limit);
  const later = outsideReasons(flags, open.untilGone).filter(
    (reason) => inMost(reason) && !known.includes(reason.limit),
  );
  const isOut = outside.length === 0 ? null : (m: number) => isOutside(flags, open.untilReady, m);
  const clock = readJoint(product, joint, isOut);
  const parts = {
    clock,
    faces: joint.map((face) => readJoint(product, [face], isOut)),
    window: windowOf(asked, joint),
    wontDry: whyNot(asked, clock),
    reasons,
    outside,
    later,
    rain: product.mechanism === 'none' ? null : rainOn(flags[0]!, open.untilGone),
    coldNight: coldNightAfter(flags[0]!, coatedUntilMs),
  };
  return { ...parts, sentence: sentenceOf(asked, parts) };
}

const inMost = ({ count, of }: OutsideReason): boolean => count >= MOST * of;

const jointOf = ({ faces, coatedMs, coatedUntilMs }: ClockAsked) =>
  faces.map(({ table }) => ({ table, firstMs: coatedMs, lastMs: coatedUntilMs }));

type Joint = ReturnType<typeof jointOf>;

/** How long a film lies open: until it may be closed, and until it can no longer be. */
function liesOpen(
  { product, faces, coatedMs, coatedUntilMs, closedMs, nowMs }: ClockAsked,
  joint: Joint,
): { readonly untilReady: LiesOpen; readonly untilGone: LiesOpen } {
  const { film } = faces[0]!.table;
  const reaches = (m: number): number => film.startMs + film.knownSteps[m]! * film.stepMs;
  const asked = (m: number): boolean => coatedMs >= film.startMs && coatedMs < reaches(m);
  const gone = (m: number, level: ScatterLevel): number => {
    if (product.openUntil !== null)
      return firstOff(product, joint, m, product.openUntil[level]).ms ?? reaches(m);
    if (product.rainAfter === null) return coatedUntilMs;
    return latestOf(joint, 'rainAfter', m, product.rainAfter[level]).ms ?? reaches(m);
  };
  const ready = (m: number): number => {
    if (product.closing === 'none') return gone(m, 'typicalMin');
    // A film closed wet is in use from first to last.
    if (product.closing === 'wet') return gone(m, 'lowMin');
    return lastReady(product, joint, m, product.touchDry?.typicalMin ?? 0).ms ?? reaches(m);
  };
  const until = (m: number, end: number): { fromMs: number; toMs: number } | null =>
    asked(m) ? { fromMs: coatedMs, toMs: Math.max(coatedMs, closedMs ?? end) } : null;
  return {
    untilReady: (m) =>
      until(m, Math.max(ready(m), Math.min(nowMs ?? ready(m), gone(m, 'typicalMin')))),
    untilGone: (m) => until(m, gone(m, 'typicalMin')),
  };
}

function windowOf({ product }: ClockAsked, joint: Joint): ClosingWindow | null {
  const { openUntil } = product;
  if (openUntil === null) return null;
  const { memberCount } = joint[0]!.table.film;
  const readyMin = (level: ScatterLevel) => waitsFor(product)?.time[level] ?? 0;
  const ready = (level: ScatterLevel, share: number) =>
    atShare(memberCount, share, (m) => lastReady(product, joint, m, readyMin(level)).ms);
  const off = (level: ScatterLevel, share: number) =>
    atShare(memberCount, share, (m) => firstOff(product, joint, m, openUntil[level]).ms);
  const late = ready('highMin', SHARES.highMin);
  const early = off('lowMin', SHARES.lowMin);
  const readyMs = ready('typicalMin', SHARES.typicalMin);
  const expiresMs = off('typicalMin', SHARES.typicalMin);
  if (readyMs === null && expiresMs === null) return null;
  if (readyMs === null || (expiresMs !== null && readyMs >= expiresMs))
    return {
      kind: 'none',
      ...deciding(product, joint, readyMin('typicalMin')),
      readyMs,
      expiresMs: expiresMs!,
    };
  const likely = { fromMs: readyMs, untilMs: expiresMs };
  if (late !== null && (early === null || late < early))
    return { kind: 'any-tin', sure: { fromMs: late, untilMs: early }, likely };
  // One and the same tin is slow in getting ready and slow in going off, or quick in both.
  const spans = (['lowMin', 'typicalMin', 'highMin'] as const).map(
    (level) =>
      atShare(memberCount, SHARES.lowMin, (m) => {
        const end = firstOff(product, joint, m, openUntil[level]).ms;
        const start = lastReady(product, joint, m, readyMin(level)).ms;
        return end === null || start === null ? null : end - start;
      }) ?? Number.POSITIVE_INFINITY,
  );
  const least = Math.min(...spans);
  return {
    kind: 'finger',
    likely,
    leastOpenMs: Number.isFinite(least) ? Math.max(0, least) : null,
  };
}

/** Which faces decide, in the middle forecast of each. */
function deciding(product: Product, joint: Joint, readyMin: number) {
  const { memberCount } = joint[0]!.table.film;
  const times = joint.map((face) => ({
    ready:
      atShare(memberCount, 0.5, (m) => lastReady(product, [face], m, readyMin).ms) ??
      Number.POSITIVE_INFINITY,
    off:
      atShare(
        memberCount,
        0.5,
        (m) => firstOff(product, [face], m, product.openUntil!.typicalMin).ms,
      ) ?? Number.POSITIVE_INFINITY,
  }));
  const lateFace = times.findIndex(({ ready }) => ready === Math.max(...times.map((t) => t.ready)));
  const earlyFace = times.findIndex(({ off }) => off === Math.min(...times.map((t) => t.off)));
  return { lateFace, earlyFace };
}
