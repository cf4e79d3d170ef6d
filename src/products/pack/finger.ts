import type { Said, Tracks } from './readings.ts';
import { endOf, progressAt } from './steps.ts';
import type { PackShift, PackSurface, PackTime } from './types.ts';

/** A factor outside these is taken at half its weight and asked about. */
const USUAL = { low: 0.5, high: 2 } as const;
/** No finger test speeds a film up or slows it down by more than this. */
const MOST = 4;

type FingerTest = Extract<PackShift, { readonly kind: 'touch-dry' | 'not-yet-dry' }>;

/** A finger test; `odd` = a touch dry so far from what was reckoned that it is asked about. */
type Weighed = FingerTest & { readonly odd: boolean };

/** What fingers said of one product on one surface. */
export interface Fingers {
  /** Speed against the pack's middle: 2 = dries twice as fast. */
  readonly speed: number;
  readonly tests: readonly Weighed[];
}

/**
 * Of several touch-dry logs for a product and surface the latest sets the speed; all of them bound
 * the films they were made on.
 * @param time  the product's touch dry, null where it has none
 * @param tracks  its film's progress with readings counted, null where it has no clock
 */
export function fingersOn(
  shifts: readonly PackShift[],
  productId: string,
  surface: PackSurface,
  time: PackTime | null,
  tracks: Tracks | null,
  said: Said,
): Fingers {
  const tests = shifts.filter(
    (shift): shift is FingerTest =>
      (shift.kind === 'touch-dry' || shift.kind === 'not-yet-dry') &&
      shift.productId === productId &&
      shift.surface === surface,
  );
  if (tests.length === 0) return { speed: 1, tests: [] };
  if (time === null || tracks === null) {
    said.notes.push('This product has no touch-dry time; finger tests on it change nothing.');
    return { speed: 1, tests: [] };
  }
  const good = tests.filter((test) => {
    const wrong = test.atMs < test.coatedMs;
    if (wrong) said.notes.push('A finger test from before its film was coated is not used.');
    return !wrong;
  });
  askAboutContradictions(good, said);
  let speed = 1;
  let latestMs = Number.NEGATIVE_INFINITY;
  const weighed = good.map((test): Weighed => {
    if (test.kind !== 'touch-dry') return { ...test, odd: false };
    const found = speedFrom(test, time, tracks, said);
    // Of a face that may have been dry long before, a slow speed says nothing.
    const tells = test.noLater !== true || found.speed > 1;
    if (tells && test.atMs >= latestMs) {
      speed = found.speed;
      latestMs = test.atMs;
    }
    return { ...test, odd: found.odd };
  });
  return { speed, tests: weighed };
}

interface Speed {
  readonly speed: number;
  readonly odd: boolean;
}

function speedFrom(test: FingerTest, time: PackTime, { mid }: Tracks, said: Said): Speed {
  if (test.coatedMs < mid.startMs || test.atMs > endOf(mid)) {
    said.notes.push('A finger test from outside the time of this clock pack sets no speed.');
    return { speed: 1, odd: true };
  }
  const made = progressAt(mid, test.atMs) - progressAt(mid, test.coatedMs);
  const needed = time[1] * mid.stepMs;
  const confirmed = test.confirmed === true;
  if (made <= 0) {
    if (!confirmed && test.noLater !== true) {
      said.questions.push(
        'It was logged as touch dry where the forecast lets nothing dry. Is that right?',
      );
    }
    return { speed: 1, odd: true };
  }
  const speed = needed / made;
  if (speed >= USUAL.low && speed <= USUAL.high) return { speed, odd: false };
  if (confirmed) return { speed: Math.min(MOST, Math.max(1 / MOST, speed)), odd: false };
  const half = Math.min(MOST, Math.max(1 / MOST, Math.sqrt(speed)));
  // Felt with a slower face, it is that face's to ask about.
  if (test.noLater === true) return { speed: half, odd: true };
  const times = speed > 1 ? speed : 1 / speed;
  said.questions.push(
    `It was logged as touch dry ${times.toFixed(1)} times as ${speed > 1 ? 'fast' : 'slowly'} as reckoned. Is that right? It counts for half until then.`,
  );
  return { speed: half, odd: true };
}

function askAboutContradictions(tests: readonly FingerTest[], said: Said): void {
  const odd = tests.some(
    (dry) =>
      dry.kind === 'touch-dry' &&
      tests.some(
        (wet) => wet.kind === 'not-yet-dry' && wet.coatedMs <= dry.coatedMs && wet.atMs >= dry.atMs,
      ),
  );
  if (odd) {
    said.questions.push(
      'A film was logged as touch dry, and later as not yet dry. Which is right? Until then it counts as not yet dry.',
    );
  }
}

/**
 * Puts finger tests over a time reckoned: a film coated no later than one found dry is dry by then, one
 * coated no earlier than one found wet is not; and where both speak, not yet wins. One coated no
 * earlier than one found dry is not dry before it either, unless that one is asked about: a touch dry
 * that looks very late may only have been felt late.
 * @param atMs  reckoned, null = not within the pack
 */
export function bounded(atMs: number | null, coatedMs: number, fingers: Fingers): number | null {
  let at = atMs ?? Number.POSITIVE_INFINITY;
  for (const test of fingers.tests) {
    if (test.kind !== 'touch-dry') continue;
    if (coatedMs <= test.coatedMs) at = Math.min(at, test.atMs);
  }
  for (const test of fingers.tests) {
    const bounds = test.kind === 'not-yet-dry' || test.noLater !== true;
    if (bounds && coatedMs >= test.coatedMs && !test.odd) at = Math.max(at, test.atMs);
  }
  return Number.isFinite(at) ? at : null;
}

/** Whether a film coated at `coatedMs` was found dry, and none that had lain as long wet after that. */
export function foundDry(coatedMs: number, { tests }: Fingers): boolean {
  return tests.some(
    (dry) =>
      dry.kind === 'touch-dry' &&
      coatedMs <= dry.coatedMs &&
      !tests.some(
        (wet) => wet.kind === 'not-yet-dry' && wet.coatedMs <= coatedMs && wet.atMs >= dry.atMs,
      ),
  );
}
