import {
  breakAt,
  coldAfter,
  type Limit,
  type SheetFlags,
  sheetBreaks,
  type WeatherLimit,
} from '../products/index.ts';
import { quantile } from './quantile.ts';

/** A limit of the sheet that the weather breaks while a film lies open, over all forecasts. */
export interface OutsideReason {
  readonly limit: WeatherLimit | 'afterMinC';
  /** What is and what is asked, as in 'air 3.0 °C, at least 5.0 °C asked'. */
  readonly words: string;
  readonly source: Limit['source'];
  /** Place in the list of faces. */
  readonly face: number;
  /** When it is first broken, in the middle forecast of those that break it. */
  readonly atMs: number;
  /** How many of how many forecasts. */
  readonly count: number;
  readonly of: number;
}

/** Rain on the open film, or a cold night after it. */
export interface Spoilt {
  readonly count: number;
  readonly of: number;
  /** In the middle one of the forecasts that bring it; null where none does. */
  readonly atMs: number | null;
  /** Forecasts that end too soon to say. */
  readonly unknown: number;
}

/** From when to when a film counts as lying open in one forecast; null = that forecast is not asked. */
export type LiesOpen = (m: number) => { readonly fromMs: number; readonly toMs: number } | null;

/** In how many forecasts a thing must happen to be told as what happens. */
export const MOST = 0.5;

/** Every limit that some forecast breaks, face by face, in the order of the product's limits. */
export function outsideReasons(faces: readonly SheetFlags[], open: LiesOpen): OutsideReason[] {
  const reasons: OutsideReason[] = [];
  faces.forEach((flags, face) => {
    const { memberCount } = flags.weather;
    const found = new Map<WeatherLimit, { m: number; atMs: number }[]>();
    let of = 0;
    for (let m = 0; m < memberCount; m += 1) {
      const lies = open(m);
      if (lies === null) continue;
      of += 1;
      for (const { limit, atMs } of sheetBreaks(flags, m, lies.fromMs, lies.toMs)) {
        const known = found.get(limit);
        if (known === undefined) found.set(limit, [{ m, atMs }]);
        else known.push({ m, atMs });
      }
    }
    for (const [limit, times] of found) {
      times.sort((a, b) => a.atMs - b.atMs);
      const middle = times[Math.floor((times.length - 1) / 2)]!;
      const { words, source } = breakAt(flags, limit, middle.m, middle.atMs);
      reasons.push({ limit, words, source, face, atMs: middle.atMs, count: times.length, of });
    }
  });
  return reasons;
}

/** Does any face break any limit in this forecast? */
export function isOutside(faces: readonly SheetFlags[], open: LiesOpen, m: number): boolean {
  const lies = open(m);
  if (lies === null) return false;
  return faces.some((flags) => sheetBreaks(flags, m, lies.fromMs, lies.toMs).length > 0);
}

/** Rain falls alike on every face: the first is asked. */
export function rainOn(flags: SheetFlags, open: LiesOpen): Spoilt {
  return over(flags.weather.memberCount, (m) => {
    const lies = open(m);
    return lies === null ? 'unknown' : flags.first('rain', m, lies.fromMs, lies.toMs);
  });
}

/** Cold in the hours the sheet asks to stay warm after laying; null where it asks none. */
export function coldNightAfter(flags: SheetFlags, laidMs: number): Spoilt | null {
  const { afterMinC, hoursAfter } = flags.product.limits;
  if (afterMinC === undefined || hoursAfter === undefined) return null;
  return over(flags.weather.memberCount, (m) => {
    const after = coldAfter(flags, m, laidMs)!;
    return after.kind === 'cold' ? after.atMs : after.kind === 'warm' ? null : 'unknown';
  });
}

function over(memberCount: number, at: (m: number) => number | null | 'unknown'): Spoilt {
  const all = Array.from({ length: memberCount }, (_, m) => at(m));
  const times = all.filter((ms): ms is number => typeof ms === 'number');
  const unknown = all.filter((ms) => ms === 'unknown').length;
  return {
    count: times.length,
    of: memberCount - unknown,
    atMs: quantile(times, 0.5),
    unknown,
  };
}
