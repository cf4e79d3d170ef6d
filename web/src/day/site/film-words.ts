import type { ClockPack, PackTimes, PackWarning } from '../../../../src/products/index.ts';

/** What to do with a film at this moment, in a word or two and a sentence. */
export interface FilmSaying {
  readonly kind: 'wait' | 'feel' | 'close' | 'gone' | 'empty' | 'withheld' | 'skin' | 'planned';
  readonly head: string;
  readonly sentence: string;
}

type Time = (ms: number) => string;
type Product = ClockPack['products'][number];

const FACE_WORDS: Readonly<Record<string, string>> = {
  deck: 'deck',
  'folded-sheet': 'folded-back sheet',
  sheet: 'sheet',
  upstand: 'upstand',
};
export const faceWords = (surface: string): string => FACE_WORDS[surface] ?? surface;

/** 'deck and folded-back sheet' */
export function facesWords(surfaces: readonly string[]): string {
  const words = surfaces.map(faceWords);
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

const or = (ms: number | null, time: Time): string =>
  ms === null ? 'later than the forecast reaches' : time(ms);

/**
 * @param nowMs  the present on site; null = another day is looked at
 */
export function sayingOf(
  times: PackTimes,
  product: Product,
  nowMs: number | null,
  time: Time,
): FilmSaying {
  const { window, touchDry, rainAfter } = times;
  if (product.closing === 'none' || window === null) {
    const sentence =
      rainAfter === null
        ? 'Nothing is waited for.'
        : `Wet until about ${or(rainAfter.midMs, time)}: rain before then spoils it.`;
    const dry = rainAfter?.lateMs ?? null;
    const head = nowMs !== null && dry !== null && nowMs >= dry ? 'Skinned' : 'Keep rain off';
    return { kind: 'skin', head, sentence };
  }
  const untilMs = times.countUntilMs;
  if (window.state === 'empty') return emptyWords(times, time);
  const gone = nowMs !== null && untilMs !== null && nowMs >= untilMs;
  if (gone) {
    return {
      kind: 'gone',
      head: 'Past its time',
      sentence: `Usable until ${time(untilMs)}: do not close it now. Scrape off or coat again as its data sheet says.`,
    };
  }
  if (times.ready === 'withheld') {
    return {
      kind: 'withheld',
      head: 'Not called ready',
      sentence: `Outside the data sheet. Count on it being usable until ${or(untilMs, time)} at most; test it, and ask the supplier.`,
    };
  }
  const { opens } = window;
  if (product.closing === 'wet') {
    const creams = opens.midMs !== null && opens.midMs > (nowMs ?? opens.midMs - 1);
    const waits = creams && product.times.closeFrom !== null;
    return waits
      ? { kind: 'wait', head: 'Wait', sentence: between(opens.midMs, untilMs, time, 'wet') }
      : {
          kind: nowMs === null ? 'planned' : 'close',
          head: nowMs === null ? 'Close it wet' : 'Close it now, wet',
          sentence: `Close it by ${or(untilMs, time)}.`,
        };
  }
  if (times.ready === 'by finger test') {
    return {
      kind: 'close',
      head: nowMs === null ? 'Close it' : 'Close it now',
      sentence: `Found touch dry: close it by ${or(untilMs, time)}.`,
    };
  }
  const sentence = between(
    window.state === 'open' ? opens.lateMs : opens.midMs,
    window.state === 'open' ? window.shuts.earlyMs : untilMs,
    time,
    window.state === 'open' ? 'sure' : 'finger',
  );
  if (nowMs === null) return { kind: 'planned', head: 'By the clock', sentence };
  const earliestMs = touchDry?.earlyMs ?? opens.earlyMs;
  return earliestMs === null || nowMs < earliestMs
    ? { kind: 'wait', head: 'Wait', sentence }
    : { kind: 'feel', head: 'Feel it', sentence };
}

/** 'Close between 10:20 and 10:42', and on what condition. */
function between(
  fromMs: number | null,
  untilMs: number | null,
  time: Time,
  how: 'sure' | 'finger' | 'wet',
): string {
  if (fromMs === null) return 'It gets ready later than the forecast reaches.';
  const span = `Close between ${time(fromMs)} and ${or(untilMs, time)}`;
  if (how === 'wet') return `${span}, while it is wet.`;
  if (how === 'sure') return `${span}: then a slow tin is ready and a quick one has not gone off.`;
  return `${span}, once the finger finds it dry.`;
}

function emptyWords({ faces, window }: PackTimes, time: Time): FilmSaying {
  const early = [...faces].sort(
    (a, b) => (a.usableUntil?.midMs ?? Infinity) - (b.usableUntil?.midMs ?? Infinity),
  )[0];
  const late = [...faces].sort(
    (a, b) => (b.touchDry?.midMs ?? Infinity) - (a.touchDry?.midMs ?? Infinity),
  )[0];
  const goes = `the ${faceWords(early?.surface ?? '')} goes off about ${or(window?.shuts.midMs ?? null, time)}`;
  const slow =
    late?.surface === early?.surface
      ? 'its last square metre'
      : `the ${faceWords(late?.surface ?? '')}`;
  return {
    kind: 'empty',
    head: 'No time to close it',
    sentence: `${goes.charAt(0).toUpperCase()}${goes.slice(1)}, before ${slow} is ready about ${or(window?.opens.midMs ?? null, time)}. Coat less at a time, the slower face first.`,
  };
}

const TENTHS = 10;

function flagWords({ flag }: PackWarning, { limits }: Product): string {
  const at = (tenths: number | null, unit: string): string =>
    tenths === null ? '' : ` ${tenths / TENTHS} ${unit}`;
  switch (flag) {
    case 'airMinC':
      return 'air colder than its limit';
    case 'airMaxC':
      return 'air warmer than its limit';
    case 'surfaceMinC':
      return `surface under its limit of${at(limits.surfaceMinC, '°C')}`;
    case 'surfaceMaxC':
      return `surface over its limit of${at(limits.surfaceMaxC, '°C')}`;
    case 'dewMarginMinK':
      return 'surface too near the dew point';
    case 'relHumMaxPct':
      return `air damper than its limit of${at(limits.relHumMaxPct, '%')}`;
    case 'afterMinC':
      return 'too cold in the hours after laying';
    case 'rainLikely':
      return 'Rain is likely';
    case 'rainPossible':
      return 'Rain is possible';
  }
}

/** 'surface too near the dew point, 08:40 to 09:30' */
export function warningWords(warning: PackWarning, product: Product, time: Time): string {
  const words = flagWords(warning, product);
  if (warning.flag === 'afterMinC') return words;
  return `${words}, ${time(warning.fromMs)} to ${time(warning.toMs)}`;
}
