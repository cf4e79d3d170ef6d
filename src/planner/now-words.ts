import { clockText } from '../time/index.ts';
import { MS_PER_MINUTE } from '../units/index.ts';
import type { NowAdvice } from './now.ts';
import { partName } from './now-names.ts';
import type { OffRoof } from './now-off-roof.ts';
import { WAIT_MS, type WayId } from './now-ways.ts';

/** What each way is called beside its figures. */
export const WAY_WORDS: Readonly<Record<WayId, string>> = {
  'go-on': 'Go on as listed',
  'open-no-more': 'Open no more, finish what is bonded',
  'close-coated': 'Close what is coated',
  wait: `Wait ${WAIT_MS / MS_PER_MINUTE} min, then go on`,
  'close-up': 'Close up now',
};

const WHY_OFF: Readonly<Record<OffRoof['why'], string>> = {
  thunder: 'thunder',
  lightning: 'lightning likely',
  'roof-wind': 'too much wind to work on it',
  daylight: 'darkness',
};

/** One line a foreman reads: what to do from this minute. */
export function nowSentence(advice: NowAdvice, thunderMs: number | null): string {
  const zone = advice.plan.prepared.job.site.timeZone;
  if (advice.finished) return 'Finished: everything on the list is done.';
  if (advice.offRoof === null) return whatWords(advice, zone);
  return `${offRoofWords(advice.offRoof, thunderMs, zone)} Then: ${lower(whatWords(advice, zone))}`;
}

export function offRoofWords(
  { why, untilMs }: OffRoof,
  thunderMs: number | null,
  zone: string,
): string {
  if (why === 'thunder')
    return `Off the roof until ${clockText(untilMs!, zone)}: thunder at ${clockText(thunderMs!, zone)}, back 30 minutes after the last.`;
  const until =
    untilMs === null
      ? 'for the rest of the working day'
      : `until about ${clockText(untilMs, zone)}`;
  return `Off the roof: ${WHY_OFF[why]}, ${until}.`;
}

function whatWords(advice: NowAdvice, zone: string): string {
  const at = (ms: number): string => clockText(ms, zone);
  const { does, closeUp, closeUpByMs, stopOpeningMs } = advice;
  const minutes = wholeMinutes(closeUp.minutes);
  const next = nextWords(advice, zone);
  const by =
    closeUpByMs === null ? '' : `; begin closing up by ${at(closeUpByMs)} (${minutes} min)`;
  switch (does) {
    case 'go-on':
      return `Go on: ${next}${stopOpeningMs === null ? '' : `; stop opening at ${at(stopOpeningMs)}`}.`;
    case 'open-no-more':
      return `Open nothing more: ${next}${by}.`;
    case 'close-coated':
      return `Close what is coated, then close up: ${next}${by}.`;
    case 'wait':
      return `Wait until ${at(Math.max(advice.atMs, advice.offRoof?.untilMs ?? 0) + WAIT_MS)}, closing only what is coated: ${next}.`;
    case 'close-up':
      break;
  }
  const rain = rainWords(advice, zone);
  if (!advice.opened) {
    const loose = minutes === 0 ? '' : `; weight the loose sheet down, ${minutes} min`;
    return `Do not open up: ${rain === '' ? 'the day is too far gone' : rain}${loose}.`;
  }
  if (advice.rainSafe) return `Rain-safe; stop here${rain === '' ? '' : `: ${rain}`}.`;
  return `Close up now: ${minutes} min${rain === '' ? '' : `; ${rain}`}${lateWords(advice)}.`;
}

/** Rain that somebody sees, and no time to close everything before it. */
function lateWords({ seenRainMs, atMs, offRoof, closeUp }: NowAdvice): string {
  if (seenRainMs === null) return '';
  const backMs = Math.max(atMs, offRoof?.untilMs ?? atMs);
  if (seenRainMs <= backMs) return ': it comes first, so warn the people below';
  if (seenRainMs - backMs >= closeUp.minutes * MS_PER_MINUTE) return '';
  return ': there is not time for all, so turn films down rather than bring them together';
}

/** Rain somebody sees before rain that is forecast. */
function rainWords({ seenRainMs, foreseenRainMs, atMs }: NowAdvice, zone: string): string {
  if (seenRainMs !== null)
    return `rain in about ${Math.round((seenRainMs - atMs) / MS_PER_MINUTE)} min`;
  return foreseenRainMs === null ? '' : `rain foreseen about ${clockText(foreseenRainMs, zone)}`;
}

function nextWords({ plan, next, atMs }: NowAdvice, zone: string): string {
  const [first] = next;
  if (first === undefined) return 'nothing more can be begun';
  const { activity } = plan.steps[first.n]!;
  const verb = activity.title.includes(': ')
    ? activity.title.slice(0, activity.title.indexOf(': '))
    : '';
  const what = verb === '' ? lower(partName(activity)) : `${lower(verb)}, ${partName(activity)}`;
  const soon = first.startMs - atMs < MS_PER_MINUTE;
  return soon
    ? `next ${what}, done by ${clockText(first.endMs, zone)}`
    : `next at ${clockText(first.startMs, zone)} ${what}`;
}

const wholeMinutes = (minutes: number): number => Math.ceil(minutes - 1e-9);
const lower = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);
