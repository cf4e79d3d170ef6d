import {
  brokenLimits,
  type Clock,
  type ClockRange,
  type Conditions,
  type DoseTable,
  type Product,
  rateAt,
  readClock,
} from '../products/index.ts';
import { clockText } from '../time/index.ts';

export interface ClockAnswerParts {
  readonly clock: Clock;
  readonly wontDry: string | null;
  /** Why the film is outside the data sheet, in words; empty = inside. */
  readonly outside: readonly string[];
  readonly sentence: string;
}

/**
 * Answers 'I coated at t: when is it ready, and until when?'.
 * @param conditions  air and surface when coated, one per forecast
 */
export function askClock(args: {
  readonly product: Product;
  readonly doses: DoseTable;
  readonly coatedMs: number;
  readonly conditions: readonly Conditions[];
  readonly timeZone: string;
}): ClockAnswerParts {
  const { product, doses, coatedMs, conditions, timeZone } = args;
  const clock = readClock(product, doses, coatedMs);
  const outside = outsideSheet(product, conditions);
  const wontDry = whyNot(product, doses, coatedMs, clock);
  return {
    clock,
    wontDry,
    outside,
    sentence: sentenceOf(product, clock, wontDry, outside, coatedMs, timeZone),
  };
}

/** A limit broken in at least half of the forecasts. */
function outsideSheet(product: Product, conditions: readonly Conditions[]): string[] {
  const seen = new Map<string, { count: number; words: string }>();
  for (const now of conditions) {
    for (const { limit, words } of brokenLimits(product, now)) {
      const before = seen.get(limit);
      seen.set(limit, { count: (before?.count ?? 0) + 1, words });
    }
  }
  return [...seen.values()]
    .filter(({ count }) => 2 * count >= conditions.length)
    .map(({ words }) => words);
}

function whyNot(product: Product, doses: DoseTable, coatedMs: number, clock: Clock): string | null {
  const waited = [clock.touchDry, clock.rainAfter].filter((range) => range !== null);
  if (waited.length === 0 || waited.every((range) => range.midMs !== null)) return null;
  const speeds = Array.from({ length: doses.film.memberCount }, (_, m) =>
    rateAt(doses, product.touchDry === null ? 'rainAfter' : 'touchDry', m, coatedMs),
  );
  const known = speeds.filter((speed) => !Number.isNaN(speed));
  if (known.length === 0)
    return 'The forecast does not reach the time it was coated, so there is no saying when it dries.';
  const stalled = known.filter((speed) => speed === 0).length * 2 >= known.length;
  const hours = Math.round(
    (doses.film.steps * doses.film.stepMs - (coatedMs - doses.film.startMs)) / 3_600_000,
  );
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

function sentenceOf(
  product: Product,
  clock: Clock,
  wontDry: string | null,
  outside: readonly string[],
  coatedMs: number,
  zone: string,
): string {
  const warn = outside.length === 0 ? '' : ` Outside the data sheet: ${outside.join('; ')}.`;
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
  if (clock.touchDry !== null) {
    return `Touch dry about ${rangeWords(clock.touchDry, zone)}; usable until ${clockOr(clock.usableUntil?.midMs, zone)}. The finger test decides.`;
  }
  if (product.closing === 'wet' && clock.usableUntil !== null) {
    return `Close it wet, at once: usable until ${clockOr(clock.usableUntil.midMs, zone)}, ${clockOr(clock.usableUntil.earlyMs, zone)} at the earliest.`;
  }
  if (clock.rainAfter !== null) {
    return `Skinned, and rain no longer harms it, about ${rangeWords(clock.rainAfter, zone)}.`;
  }
  return `Laid at ${clockText(coatedMs, zone)}; nothing more is known of its times.`;
}

function rangeWords(range: ClockRange, zone: string): string {
  return `${clockOr(range.midMs, zone)} (${clockOr(range.earlyMs, zone)} to ${clockOr(range.lateMs, zone)})`;
}

function clockOr(ms: number | null | undefined, zone: string): string {
  return ms === null || ms === undefined ? 'later than the forecast reaches' : clockText(ms, zone);
}
