import { type Clock, type ClockRange, type Limit, rateAt, waitsFor } from '../products/index.ts';
import { clockText, spanText } from '../time/index.ts';
import { MS_PER_HOUR, MS_PER_MINUTE } from '../units/index.ts';
import { MOST, type OutsideReason, type Spoilt } from './clock-outside.ts';
import type { ClockAnswerParts, ClockAsked } from './clock-question.ts';
import { forecastsWords } from './forecast-words.ts';

/** Why nothing gets ready in the time looked at, or null. */
export function whyNot({ product, faces, coatedMs }: ClockAsked, clock: Clock): string | null {
  const waited = [clock.touchDry, clock.rainAfter].filter((range) => range !== null);
  if (waited.length === 0 || waited.every((range) => range.midMs !== null)) return null;
  const event = product.touchDry === null ? 'rainAfter' : 'touchDry';
  const { film } = faces[0]!.table;
  // The slowest face keeps the joint waiting.
  const speeds = Array.from({ length: film.memberCount }, (_, m) =>
    Math.min(...faces.map(({ table }) => rateAt(table, event, m, coatedMs))),
  );
  const known = speeds.filter((speed) => !Number.isNaN(speed));
  if (known.length === 0)
    return 'The forecast does not reach the time it was coated, so there is no saying when it dries.';
  const stalled = known.filter((speed) => speed === 0).length * 2 >= known.length;
  const hours = Math.round((film.startMs + film.steps * film.stepMs - coatedMs) / MS_PER_HOUR);
  if (!stalled) {
    const what = product.touchDry === null ? 'skin over' : 'get touch dry';
    return `It does not ${what} in the ${hours} h looked at.`;
  }
  switch (product.mechanism) {
    case 'water':
      return 'It will not dry: the surface is frozen or at the dew point of the air, so no water can leave the film.';
    case 'moisture-cure':
      return 'It will not cure: the film is frozen, or the air holds no moisture to cure it.';
    default:
      return 'It will not dry while the film is this cold.';
  }
}

type Parts = Omit<ClockAnswerParts, 'sentence'>;

/** The answer in one or a few plain sentences. */
export function sentenceOf(asked: ClockAsked, parts: Parts): string {
  const sentences = [
    rainFirst(asked, parts),
    mainSentence(asked, parts),
    windowWords(asked, parts),
    laterWords(asked, parts),
    rainMaybe(asked, parts),
    coldWords(asked, parts),
  ];
  return sentences.filter((sentence) => sentence !== '').join(' ');
}

function mainSentence(asked: ClockAsked, { clock, wontDry, outside, window }: Parts): string {
  const { product, coatedUntilMs, timeZone: zone } = asked;
  const warn =
    outside.length === 0
      ? ''
      : ` Outside the data sheet: ${reasonsWords(asked, outside).join('; ')}.`;
  if (wontDry !== null) return `${wontDry}${warn}`;
  if (product.mechanism === 'none') {
    return `${product.name} has no drying time: it holds once rolled.${warn}`;
  }
  // Outside the sheet nothing is called ready; the end of open time is still counted, on the fast side.
  if (outside.length > 0) {
    const end =
      clock.usableUntil === null
        ? ''
        : ` Count on it being usable until ${clockOr(clock.usableUntil.earlyMs, zone)} at most.`;
    return `Not to be called ready.${warn}${end} Test, and ask the supplier.`;
  }
  // What cannot be closed in time is told as that, not as two times that contradict each other.
  if (window?.kind === 'none') return '';
  if (clock.touchDry !== null) {
    return `Touch dry about ${rangeWords(clock.touchDry, zone)}; usable until ${clockOr(clock.usableUntil?.midMs, zone)}. The finger test decides.`;
  }
  if (product.closing === 'wet' && clock.usableUntil !== null) {
    const waits = window !== null && waitsFor(product) !== null;
    const when = waits ? `from ${clockText(window.likely.fromMs, zone)} on` : 'at once';
    return `Close it wet, ${when}: usable until ${clockOr(clock.usableUntil.midMs, zone)}, ${clockOr(clock.usableUntil.earlyMs, zone)} at the earliest.`;
  }
  if (clock.rainAfter !== null) {
    return `Skinned, and rain no longer harms it, about ${rangeWords(clock.rainAfter, zone)}.`;
  }
  return `Laid at ${clockText(coatedUntilMs, zone)}; nothing more is known of its times.`;
}

function windowWords(asked: ClockAsked, { window, outside, wontDry, later }: Parts): string {
  const { product, faces, coatedMs, coatedUntilMs, timeZone: zone } = asked;
  if (window === null || wontDry !== null || product.closing === 'none') return '';
  if (window.kind === 'none') {
    const early = faces[window.earlyFace]!.words;
    const late = faces[window.lateFace]!.words;
    const goes = `${early}, coated from ${clockText(coatedMs, zone)}, goes off about ${clockText(window.expiresMs, zone)}`;
    const slow = window.lateFace === window.earlyFace ? 'its last square metre' : late;
    const before =
      waitsFor(product) === null
        ? `, before the last of it is coated at ${clockText(coatedUntilMs, zone)}`
        : window.readyMs === null
          ? `, and ${slow} is not ready in the time looked at`
          : `, before ${slow}, coated until ${clockText(coatedUntilMs, zone)}, is ready about ${clockText(window.readyMs, zone)}`;
    return `No time to bring it together: ${goes}${before}. Coat less at a time, the slower face first.`;
  }
  if (product.closing === 'wet' || outside.length > 0) return '';
  if (window.kind === 'any-tin') {
    // A limit that breaks before the film goes off ends the time to close it, too.
    const { fromMs, untilMs } = window.sure;
    const endMs = Math.min(untilMs ?? Number.POSITIVE_INFINITY, brokenFromMs(later));
    if (endMs <= fromMs) return '';
    const end = clockOr(Number.isFinite(endMs) ? endMs : null, zone);
    return `Bring together from ${clockText(fromMs, zone)} to ${end}: then a slow tin is ready and a quick one has not gone off.`;
  }
  const least =
    window.leastOpenMs === null
      ? ''
      : window.leastOpenMs < MS_PER_MINUTE
        ? ' Of so large a section a quick tin may go off before it is ready: coat less at a time.'
        : ` From then it stays usable for ${spanText(window.leastOpenMs)} at least.`;
  return `No hour suits every tin, a slow one and a quick one: wait for the finger test.${least}`;
}

const brokenFromMs = (later: readonly OutsideReason[]): number =>
  Math.min(...later.map(({ atMs }) => atMs));

function rainFirst({ timeZone: zone, made }: ClockAsked, { rain }: Parts): string {
  if (rain === null || rain.atMs === null || rain.count < MOST * rain.of) return '';
  return `Rain on the open film about ${clockText(rain.atMs, zone)}${inForecasts(rain, made)}: what lies open then is scraped off and coated again.`;
}

function rainMaybe({ timeZone: zone, made }: ClockAsked, { rain }: Parts): string {
  if (rain === null || rain.atMs === null || rain.count >= MOST * rain.of) return '';
  return `Rain on the film before it goes off${inForecasts(rain, made)}, about ${clockText(rain.atMs, zone)}: what lies open then is scraped off and coated again.`;
}

function laterWords(asked: ClockAsked, { later, wontDry }: Parts): string {
  if (later.length === 0 || wontDry !== null) return '';
  return `Have it together by ${clockText(brokenFromMs(later), asked.timeZone)}: after that it is outside the data sheet (${reasonsWords(asked, later).join('; ')}).`;
}

function coldWords({ product, timeZone: zone, made }: ClockAsked, { coldNight }: Parts): string {
  const { afterMinC, hoursAfter } = product.limits;
  if (coldNight === null || afterMinC === undefined || hoursAfter === undefined) return '';
  const asks = `the ${hoursAfter.value} h at ${afterMinC.value} °C or more asked after laying (${WHOSE[afterMinC.source]})`;
  if (coldNight.atMs !== null)
    return `Too cold for ${asks}${inForecasts(coldNight, made)}, first about ${clockText(coldNight.atMs, zone)}.`;
  return coldNight.of === 0 ? `The forecast does not reach over ${asks}.` : '';
}

const inForecasts = ({ count, of }: Spoilt, made = false): string =>
  of === 1 ? '' : ` in ${count} of ${forecastsWords(of, made)}`;

/** Whose a limit is, as it stands beside it. */
export const WHOSE: Readonly<Record<Limit['source'], string>> = {
  'data sheet': 'data sheet',
  'common practice': 'common practice',
  'from memory': 'starter value',
  user: "the firm's own",
};

/** 'folded-back sheet: surface 52.0 °C, at most 50.0 °C allowed from 12:40; common practice' */
export function reasonWords(
  { faces, coatedMs, timeZone }: ClockAsked,
  reason: OutsideReason,
): string {
  const where = faces.length > 1 ? `${nameOf(faces, reason)}: ` : '';
  return `${where}${bareWords(reason, coatedMs, timeZone)}`;
}

const nameOf = (faces: ClockAsked['faces'], { face }: OutsideReason): string =>
  faces[face]!.words.replace(/^the /, '');

function bareWords({ atMs, words, source }: OutsideReason, coatedMs: number, zone: string): string {
  const from = atMs > coatedMs ? ` from ${clockText(atMs, zone)}` : '';
  return `${words}${from} (${WHOSE[source]})`;
}

/** The same for a list: what is true of every face is said once, without naming them. */
export function reasonsWords(
  { faces, coatedMs, timeZone }: ClockAsked,
  reasons: readonly OutsideReason[],
): string[] {
  const facesOf = new Map<string, string[]>();
  for (const reason of reasons) {
    const text = bareWords(reason, coatedMs, timeZone);
    facesOf.set(text, [...(facesOf.get(text) ?? []), nameOf(faces, reason)]);
  }
  return [...facesOf].map(([text, names]) =>
    names.length === faces.length ? text : `${names.join(', ')}: ${text}`,
  );
}

function rangeWords(range: ClockRange, zone: string): string {
  return `${clockOr(range.midMs, zone)} (${clockOr(range.earlyMs, zone)} to ${clockOr(range.lateMs, zone)})`;
}

function clockOr(ms: number | null | undefined, zone: string): string {
  return ms === null || ms === undefined ? 'later than the forecast reaches' : clockText(ms, zone);
}
