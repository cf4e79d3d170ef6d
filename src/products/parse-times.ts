import type { Draft, Say } from './parse-draft.ts';
import { brief } from './printed-units.ts';
import type { RefTime } from './types.ts';

/** Every time a product may have, all counted from coating. */
export const TIMES = [
  'touchDry',
  'openUntil',
  'rainAfter',
  'closeFrom',
  'footTraffic',
  'fullCure',
] as const;
export type TimeField = (typeof TIMES)[number];
const RANKS = ['lowMin', 'typicalMin', 'highMin'] as const;

export const range = ({ lowMin, highMin }: RefTime): string =>
  `${brief(lowMin)} to ${brief(highMin)} min`;

/** What must come before what, and why; compared low with low, typical with typical, high with high. */
const ORDER: readonly (readonly [first: TimeField, then: TimeField, why: string])[] = [
  ['touchDry', 'openUntil', 'the film would be past use before it is ready'],
  ['closeFrom', 'openUntil', 'the film would be past use before anything may be laid into it'],
  ['touchDry', 'footTraffic', 'it would be walked on before the faces may meet'],
  ['closeFrom', 'footTraffic', 'it would be walked on before anything may be laid into it'],
  ['openUntil', 'fullCure', 'the film would be cured through before its open time ends'],
  ['rainAfter', 'fullCure', 'it would be cured through before rain does it no harm'],
  ['footTraffic', 'fullCure', 'it would be cured through before it may be walked on'],
];

/** Times out of order in themselves or with each other. */
export function checkTimes(draft: Draft, say: Say): void {
  for (const key of TIMES) {
    const time = draft[key];
    if (!time) continue;
    ordered(`${key}.lowMin`, time.lowMin, `${key}.typicalMin`, time.typicalMin, say);
    ordered(`${key}.typicalMin`, time.typicalMin, `${key}.highMin`, time.highMin, say);
  }
  for (const [first, then, why] of ORDER) {
    const before = draft[first];
    const after = draft[then];
    if (!before || !after) continue;
    for (const rank of RANKS) {
      if (after[rank] > before[rank]) continue;
      say(
        `${then}.${rank}`,
        `${then}.${rank} (${brief(after[rank])} min) does not end after ${first}.${rank} (${brief(before[rank])} min): both count from coating, so ${why}.`,
      );
    }
  }
  const { closeFrom, closing } = draft;
  if (closeFrom && closing !== undefined && closing !== 'wet') {
    say(
      'closeFrom',
      `closeFrom is ${range(closeFrom)}, but closing is '${closing}': only a film closed wet is waited for so, so it must be null.`,
    );
  }
}

function ordered(lowPath: string, low: number, highPath: string, high: number, say: Say): void {
  if (low <= high) return;
  say(
    lowPath,
    `${lowPath} (${brief(low)}) is above ${highPath} (${brief(high)}); low, typical and high must rise.`,
  );
}
