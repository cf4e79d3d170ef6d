import type { Face } from './face.ts';
import { type ClockPack, PACK_FLAGS, type PackFlag, type PackWarning } from './types.ts';

const RAIN: readonly PackFlag[] = ['rainLikely', 'rainPossible'];
const LIMITS = (Object.keys(PACK_FLAGS) as PackFlag[]).filter((flag) => !RAIN.includes(flag));
const TENTHS = 10;

/**
 * Limits broken on a face while its film lies open. The night after is judged by when it was laid.
 * @param untilMs  when it no longer matters, null = up to where the pack ends
 */
export function outsideOn(
  pack: ClockPack,
  face: Face,
  laidMs: readonly [first: number, last: number],
  untilMs: number | null,
): PackWarning[] {
  const { flags } = face.clock;
  const read = face.off.surfaceK !== null || face.off.relHumPct !== null;
  const bitsAt = (i: number): number => flags[i]! | (read ? readingFlags(pack, face, i) : 0);
  return LIMITS.flatMap((flag) => {
    const to = flag === 'afterMinC' ? laidMs[1] : untilMs;
    return warningIn(pack, bitsAt, flag, laidMs[0], to);
  });
}

export function rainOn(
  pack: ClockPack,
  face: Face,
  fromMs: number,
  untilMs: number | null,
): PackWarning[] {
  const bitsAt = (i: number): number => face.clock.flags[i]!;
  const likely = warningIn(pack, bitsAt, 'rainLikely', fromMs, untilMs);
  return likely.length > 0 ? likely : warningIn(pack, bitsAt, 'rainPossible', fromMs, untilMs);
}

/** What readings on site break by themselves; they never take a flag of the forecast away. */
function readingFlags(pack: ClockPack, { off, product, clock }: Face, i: number): number {
  const { surfaceMinC, surfaceMaxC, relHumMaxPct } = product.limits;
  let bits = 0;
  const offK = off.surfaceK?.[i] ?? 0;
  if (offK !== 0) {
    const tenthsC = pack.surfaces.get(clock.surface)![i]! + offK * TENTHS;
    if (surfaceMinC !== null && tenthsC < surfaceMinC) bits |= PACK_FLAGS.surfaceMinC;
    if (surfaceMaxC !== null && tenthsC > surfaceMaxC) bits |= PACK_FLAGS.surfaceMaxC;
  }
  const offPct = off.relHumPct?.[i] ?? 0;
  if (offPct !== 0 && relHumMaxPct !== null) {
    if (pack.relHum[i]! + offPct * TENTHS > relHumMaxPct) bits |= PACK_FLAGS.relHumMaxPct;
  }
  return bits;
}

/** From the first to the last step with the flag, the step of `fromMs` included. */
function warningIn(
  pack: ClockPack,
  bitsAt: (i: number) => number,
  flag: PackFlag,
  fromMs: number,
  untilMs: number | null,
): PackWarning[] {
  const { startMs, stepMs, knownSteps } = pack;
  const first = Math.floor((fromMs - startMs) / stepMs);
  const end =
    untilMs === null
      ? knownSteps
      : Math.min(knownSteps, Math.max(first + 1, Math.ceil((untilMs - startMs) / stepMs)));
  let from = -1;
  let to = -1;
  for (let i = first; i < end; i += 1) {
    if ((bitsAt(i) & PACK_FLAGS[flag]) === 0) continue;
    if (from < 0) from = i;
    to = i + 1;
  }
  if (from < 0) return [];
  return [{ flag, fromMs: Math.max(fromMs, startMs + from * stepMs), toMs: startMs + to * stepMs }];
}

/** One warning a flag over several faces, from its first to its last. */
export function joined(warnings: readonly PackWarning[]): PackWarning[] {
  const byFlag = new Map<PackFlag, PackWarning>();
  for (const warning of warnings) {
    const before = byFlag.get(warning.flag);
    byFlag.set(
      warning.flag,
      before === undefined
        ? warning
        : {
            flag: warning.flag,
            fromMs: Math.min(before.fromMs, warning.fromMs),
            toMs: Math.max(before.toMs, warning.toMs),
          },
    );
  }
  return [...byFlag.values()];
}
