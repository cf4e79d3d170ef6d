import type { ClockAnswer, ClockFace, ClockReason, WeatherLabel } from '../contract/index.ts';
import {
  type ClockAnswerParts,
  type ClockAsked,
  type OutsideReason,
  reasonsWords,
  reasonWords,
  type Spoilt,
  WHOSE,
} from '../planner/index.ts';

/** A clock as it crosses the wire. Outside its data sheet nothing says when it is ready. */
export function presentClock(args: {
  readonly asked: ClockAsked;
  readonly names: readonly ClockFace[];
  readonly weather: WeatherLabel | null;
  readonly answer: ClockAnswerParts;
  readonly cautions: readonly string[];
}): ClockAnswer {
  const { asked, names, answer } = args;
  const { product } = asked;
  const withheld = answer.outside.length > 0;
  const ready = <T>(value: T | null): T | null => (withheld ? null : value);
  const { touchDry, usableUntil, rainAfter, footTraffic, fullCure } = answer.clock;
  return {
    product: {
      id: product.id,
      name: product.name,
      mechanism: product.mechanism,
      closing: product.closing,
    },
    coatedMs: asked.coatedMs,
    coatedUntilMs: asked.coatedUntilMs,
    weather: args.weather,
    touchDry: ready(touchDry),
    usableUntil,
    rainAfter: ready(rainAfter),
    footTraffic: ready(footTraffic),
    fullCure: ready(fullCure),
    faces: names.map((face, n) => ({
      face,
      touchDry: ready(answer.faces[n]!.touchDry),
      usableUntil: answer.faces[n]!.usableUntil,
    })),
    window: windowOf(answer, names, withheld),
    wontDry: answer.wontDry,
    withheld,
    outside: reasonsWords(asked, answer.outside),
    outsideReasons: answer.outside.map((reason) => reasonOf(asked, names, reason)),
    laterReasons: answer.later.map((reason) => reasonOf(asked, names, reason)),
    rain: spoiltOf(answer.rain),
    coldNight: spoiltOf(answer.coldNight),
    sentence: answer.sentence,
    cautions: [...product.hazards, ...args.cautions],
  };
}

function reasonOf(
  asked: ClockAsked,
  names: readonly ClockFace[],
  reason: OutsideReason,
): ClockReason {
  const { limit, atMs, count, of, source, face } = reason;
  return {
    limit,
    words: reasonWords(asked, reason),
    whose: WHOSE[source],
    face: names[face]!,
    atMs,
    count,
    of,
  };
}

const spoiltOf = (spoilt: Spoilt | null) => (spoilt === null ? null : { ...spoilt });

function windowOf(
  { window }: ClockAnswerParts,
  names: readonly ClockFace[],
  withheld: boolean,
): ClockAnswer['window'] {
  if (window === null) return null;
  switch (window.kind) {
    case 'none': {
      const { lateFace, earlyFace, readyMs, expiresMs } = window;
      return {
        kind: 'none',
        lateFace: names[lateFace]!,
        earlyFace: names[earlyFace]!,
        readyMs: withheld ? null : readyMs,
        expiresMs,
      };
    }
    // A window begins with 'ready', which nobody promises outside the sheet.
    case 'finger':
      return withheld
        ? null
        : { kind: 'finger', likely: { ...window.likely }, leastOpenMs: window.leastOpenMs };
    case 'any-tin':
      return withheld
        ? null
        : { kind: 'any-tin', sure: { ...window.sure }, likely: { ...window.likely } };
  }
}
