import type { CoreLag, CoreProject, CoreWindow } from './types.ts';

export const MOST_PERIODS = 1 << 22;

/** Per activity the periods it may start in by its own list and the windows that hang on it; null = any. */
export function allowedStarts({ activities, windows = [] }: CoreProject): (Int32Array | null)[] {
  return activities.map(({ allowedStarts: list, earliestStart, latestStart }, i) => {
    const own = windows.filter(({ from }) => from === i);
    if (list === undefined && own.length === 0) return null;
    const starts = list ?? own[0]!.earliest.map((_, s) => s);
    return Int32Array.from(starts).filter(
      (s) =>
        s >= (earliestStart ?? 0) &&
        s <= (latestStart ?? s) &&
        own.every(({ earliest, latest }) => s < earliest.length && earliest[s]! <= latest[s]!),
    );
  });
}

/** What windows imply whenever their first activity starts: the least and the longest lag of each. */
export function windowLags(
  windows: readonly CoreWindow[],
  allowed: readonly (Int32Array | null)[],
): CoreLag[] {
  return windows.flatMap(({ from, to, earliest, latest }) => {
    let least = MOST_PERIODS;
    let longest = -MOST_PERIODS;
    for (const s of allowed[from]!) {
      least = Math.min(least, earliest[s]! - s);
      longest = Math.max(longest, latest[s]! - s);
    }
    if (least > longest) return [];
    return [
      { from, to, minLag: least },
      { from: to, to: from, minLag: -longest },
    ];
  });
}

/** What is wrong in form with allowed starts and windows, a sentence each. */
export function windowProblems({ activities, windows = [] }: CoreProject): string[] {
  const problems: string[] = [];
  activities.forEach(({ allowedStarts: list = [] }, i) => {
    const at = list.findIndex(
      (s, n) => !Number.isInteger(s) || s < 0 || s > MOST_PERIODS || s <= (list[n - 1] ?? -1),
    );
    if (at >= 0) {
      problems.push(
        `activities[${i}].allowedStarts[${at}] (${list[at]}) must be a whole number in 0..${MOST_PERIODS}, more than the one before`,
      );
    }
  });
  windows.forEach(({ from, to, earliest, latest }, k) => {
    for (const [name, index] of [['from', from] as const, ['to', to] as const]) {
      if (Number.isInteger(index) && index >= 0 && index < activities.length) continue;
      problems.push(
        `windows[${k}].${name} (${index}) must be an activity, 0..${activities.length - 1}`,
      );
    }
    if (from === to) problems.push(`windows[${k}] ties activity ${from} to itself`);
    if (earliest.length !== latest.length) {
      problems.push(
        `windows[${k}].latest has ${latest.length} values for ${earliest.length} of earliest`,
      );
    }
    for (const [name, list] of [['earliest', earliest] as const, ['latest', latest] as const]) {
      const at = list.findIndex((s) => !Number.isInteger(s) || Math.abs(s) > MOST_PERIODS);
      if (at < 0) continue;
      problems.push(
        `windows[${k}].${name}[${at}] (${list[at]}) must be a whole number in ${-MOST_PERIODS}..${MOST_PERIODS}`,
      );
    }
  });
  return problems;
}
