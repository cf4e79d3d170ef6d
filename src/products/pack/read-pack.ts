import type { ClockRange } from '../clock.ts';
import {
  closeFromOn,
  type Face,
  faceOf,
  plainOn,
  rainAfterOn,
  touchDryOn,
  usableOn,
} from './face.ts';
import { foundDry } from './finger.ts';
import type { Said } from './readings.ts';
import type {
  ClockPack,
  PackAnswer,
  PackProduct,
  PackQuestion,
  PackTimes,
  PackWindow,
} from './types.ts';
import { joined, outsideOn, rainOn } from './warnings.ts';

/**
 * Answers 'coated at t' from a pack alone: no weather, no physics, no clock of its own, whole numbers
 * throughout, so that a server and a phone with no signal give the same answer to the millisecond.
 * @param q  what was coated and when, with what was read or felt on site since; leaving an entry out
 *   of `shifts` undoes it
 * @returns times as ranges (early, middle, late), or the sentence why there are none
 * @throws RangeError on a time that is no whole number
 */
export function readPack(pack: ClockPack, q: PackQuestion): PackAnswer {
  const lastMs = q.lastCoatedMs ?? q.coatedMs;
  checkWhole('coatedMs', q.coatedMs);
  checkWhole('lastCoatedMs', lastMs);
  for (const shift of q.shifts) checkWhole('shifts.atMs', shift.atMs);
  const product = pack.products.find(({ id }) => id === q.productId);
  if (product === undefined) return no(`This clock pack holds no product '${q.productId}'.`);
  const why = whyNot(pack, q, lastMs);
  if (why !== null) return no(why);

  const said: Said = { questions: [], notes: [] };
  const faces: Face[] = [];
  for (const surface of new Set(q.surfaces)) {
    const clock = pack.clocks.find(
      (each) => each.productId === product.id && each.surface === surface,
    );
    if (clock === undefined)
      return no(`This clock pack holds no '${surface}' for ${product.name}.`);
    faces.push(faceOf(pack, product, clock, q.shifts, said));
  }
  return timesOf(pack, product, faces, q.coatedMs, lastMs, said);
}

const no = (why: string): PackAnswer => ({ ok: false, why });

function checkWhole(name: string, ms: number): void {
  if (!Number.isSafeInteger(ms)) throw new RangeError(`${name} (${ms}) must be whole epoch ms`);
}

function whyNot(pack: ClockPack, q: PackQuestion, lastMs: number): string | null {
  const endMs = pack.startMs + pack.knownSteps * pack.stepMs;
  if (q.surfaces.length === 0) return 'No surface is given.';
  if (lastMs < q.coatedMs) return 'The last square metre cannot be coated before the first.';
  if (pack.knownSteps === 0) return 'The forecast says nothing of this day.';
  if (q.coatedMs < pack.startMs) return 'It was coated before the time this clock pack covers.';
  if (lastMs >= endMs) {
    return pack.knownSteps < pack.steps
      ? 'The forecast ends before it was coated.'
      : 'It was coated after the time this clock pack covers.';
  }
  return null;
}

function timesOf(
  pack: ClockPack,
  product: PackProduct,
  faces: readonly Face[],
  firstMs: number,
  lastMs: number,
  said: Said,
): PackTimes {
  const knownUntilMs = pack.startMs + pack.knownSteps * pack.stepMs;
  const all = (of: (face: Face) => ClockRange | null): ClockRange | null => latest(faces.map(of));
  const each = faces.map((face) => ({
    surface: face.clock.surface,
    touchDry: touchDryOn(face, lastMs),
    usableUntil: usableOn(face, firstMs),
  }));
  const touchDry = latest(each.map((face) => face.touchDry));
  const usableUntil = earliest(each.map((face) => face.usableUntil));
  const rainAfter = all((face) => rainAfterOn(face, lastMs));
  const opens =
    product.closing === 'touch-dry'
      ? touchDry
      : product.closing === 'wet'
        ? all((face) => closeFromOn(face, lastMs))
        : null;
  const window =
    opens === null || usableUntil === null
      ? null
      : { opens, shuts: usableUntil, state: stateOf(opens, usableUntil, knownUntilMs) };

  // A film closed wet lies open until it must be closed, all others until they are dry or skinned.
  const openUntilMs =
    product.closing === 'wet' && usableUntil !== null
      ? usableUntil.earlyMs
      : touchDry !== null
        ? touchDry.midMs
        : rainAfter !== null
          ? rainAfter.midMs
          : lastMs;
  const wetUntilMs =
    rainAfter !== null ? rainAfter.midMs : usableUntil !== null ? usableUntil.midMs : openUntilMs;
  const outside = joined(
    faces.flatMap((face) => outsideOn(pack, face, [firstMs, lastMs], openUntilMs)),
  );
  const felt = faces.every((face) => foundDry(lastMs, face.fingers));
  return {
    ok: true,
    touchDry,
    usableUntil,
    rainAfter,
    footTraffic: all((face) => plainOn(face, 'footTraffic', lastMs)),
    fullCure: all((face) => plainOn(face, 'fullCure', lastMs)),
    window,
    ready:
      window === null && touchDry === null && rainAfter === null
        ? null
        : touchDry !== null && felt
          ? 'by finger test'
          : outside.length > 0
            ? 'withheld'
            : 'by clock',
    countUntilMs:
      usableUntil === null ? null : outside.length > 0 ? usableUntil.earlyMs : usableUntil.midMs,
    outside,
    rain: joined(faces.flatMap((face) => rainOn(pack, face, firstMs, wetUntilMs))),
    faces: each,
    knownUntilMs,
    questions: [...new Set(said.questions)],
    notes: [...new Set(said.notes)],
  };
}

const beyond = (ms: number | null): number => ms ?? Number.POSITIVE_INFINITY;
const within = (ms: number): number | null => (Number.isFinite(ms) ? ms : null);

/** The last of several faces; a time beyond the pack stays beyond it. */
function latest(ranges: readonly (ClockRange | null)[]): ClockRange | null {
  return merged(ranges, Math.max);
}

function earliest(ranges: readonly (ClockRange | null)[]): ClockRange | null {
  return merged(ranges, Math.min);
}

function merged(
  ranges: readonly (ClockRange | null)[],
  pick: (...ms: number[]) => number,
): ClockRange | null {
  const known = ranges.filter((range) => range !== null);
  if (known.length === 0) return null;
  const at = (end: keyof ClockRange): number | null =>
    within(pick(...known.map((range) => beyond(range[end]))));
  return { earlyMs: at('earlyMs'), midMs: at('midMs'), lateMs: at('lateMs') };
}

function stateOf(opens: ClockRange, shuts: ClockRange, knownUntilMs: number): PackWindow['state'] {
  // What is not reached within the pack opens after its end at the soonest.
  if (beyond(shuts.midMs) <= (opens.midMs ?? knownUntilMs)) return 'empty';
  if (opens.midMs === null) return 'not known';
  return opens.lateMs !== null && opens.lateMs < beyond(shuts.earlyMs) ? 'open' : 'narrow';
}
