import { fitFrom } from '../weather/index.ts';
import type { Prepared } from './prepare.ts';
import { quantile } from './quantile.ts';

/** When the deck is dry enough to lay on, over the forecasts; null inside = not before the time asked about ends. */
export type DeckFit =
  | {
      readonly known: true;
      readonly earlyMs: number | null;
      readonly midMs: number | null;
      readonly lateMs: number | null;
    }
  | { readonly known: false; readonly why: string };

/** Share of forecasts outside the range at each end. */
const TAIL = 0.1;

/** Timber is laid on at 16 % or less, with care to 19 %, not above (common practice). */
function underCovering(moisturePct: number | null): string {
  if (moisturePct === null) return 'How dry the deck is, is not known until it is opened.';
  const call =
    moisturePct <= 16
      ? 'dry enough to lay on'
      : moisturePct <= 19
        ? 'damp: test it again once opened'
        : 'too wet to lay on: boards to be changed or dried';
  return `The deck under its covering was read at ${moisturePct} %: ${call}.`;
}

/**
 * First moment of a day from which the deck stays dry.
 * A deck still under its old covering is not known until it is opened.
 */
export function deckFit(prepared: Prepared, fromMs: number, toMs: number): DeckFit {
  const { strip, deckMoisturePct } = prepared.job.buildUp;
  if (strip) return { known: false, why: underCovering(deckMoisturePct) };
  const deck = prepared.surface('deck');
  const found: number[] = [];
  for (let m = 0; m < prepared.grid.memberCount; m += 1) {
    const fit = fitFrom(deck, m, fromMs);
    found.push(fit !== null && fit < toMs ? fit : Number.POSITIVE_INFINITY);
  }
  const at = (share: number): number | null => {
    const ms = quantile(found, share) ?? Number.POSITIVE_INFINITY;
    return Number.isFinite(ms) ? ms : null;
  };
  return { known: true, earlyMs: at(TAIL), midMs: at(0.5), lateMs: at(1 - TAIL) };
}
