import type { ClockAnswer, ClockFace } from '../../../src/contract/index.ts';
import { minutesWords } from '../words/figures.ts';

export const FACE_WORDS: Readonly<Record<ClockFace, string>> = {
  deck: 'deck',
  sheet: 'folded-back sheet',
  upstand: 'upstand',
  'lap-top': 'top of the lap',
  'lap-bottom': 'bottom of the lap',
};

type Time = (ms: number) => string;

const BEYOND = 'later than was looked at';

/** When to bring it together, or which face goes off before which is ready; null = nothing to close. */
export interface WindowWords {
  readonly head: string;
  readonly detail: string;
  readonly fails: boolean;
}

/** A limit that breaks while it is still usable ends the time to close it. */
function endOf({ laterReasons }: ClockAnswer, untilMs: number | null): number | null {
  const ends = [...laterReasons.map(({ atMs }) => atMs), ...(untilMs === null ? [] : [untilMs])];
  return ends.length === 0 ? null : Math.min(...ends);
}

export function windowWords(answer: ClockAnswer, time: Time): WindowWords | null {
  const { window, product } = answer;
  if (window === null || product.closing === 'none') return null;
  if (window.kind === 'none') {
    const late =
      window.lateFace === window.earlyFace
        ? 'its last square metre'
        : `the ${FACE_WORDS[window.lateFace]}`;
    const ready = window.readyMs === null ? 'is ready' : `is ready about ${time(window.readyMs)}`;
    return {
      head: 'No time to close it',
      detail: `The ${FACE_WORDS[window.earlyFace]} goes off about ${time(window.expiresMs)}, before ${late} ${ready}. Coat less at a time, the slower face first.`,
      fails: true,
    };
  }
  const span = window.kind === 'any-tin' ? window.sure : window.likely;
  const untilMs = endOf(answer, span.untilMs);
  const end = untilMs === null ? BEYOND : time(untilMs);
  const head = `Close between ${time(span.fromMs)} and ${end}`;
  if (product.closing === 'wet') return { head, detail: 'While it is wet.', fails: false };
  if (window.kind === 'any-tin') {
    const detail = 'In that time a slow tin is ready and a quick one has not gone off.';
    return { head, detail, fails: false };
  }
  const least =
    window.leastOpenMs === null
      ? ''
      : ` From then it stays usable for ${minutesWords(Math.floor(window.leastOpenMs / 60_000))} at least.`;
  return { head, detail: `Once the finger finds it ready.${least}`, fails: false };
}
