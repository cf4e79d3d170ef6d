import { insideAngleDeg } from './corners.ts';
import type { OutlineIssue, Point } from './types.ts';
import { distanceM, middle, segmentsMeet, signedAreaM2 } from './vectors.ts';

/** Points nearer than this are one place, and lines nearer than this touch [m]. */
export const TOUCH_M = 0.001;
/** An edge that doubles back within this angle encloses nothing [deg]. */
const FOLDED_DEG = 1;
const SMALLEST_M2 = 0.01;
/** So many crossings are named one by one; the rest are counted. */
const NAMED_CROSSINGS = 8;

/** A length in a sentence [m]. */
export const metres = (m: number): string => `${Number(m.toFixed(3))} m`;
/** A place in a sentence. */
export const place = ([x, y]: Point): string =>
  `(${Number(x.toFixed(3))}, ${Number(y.toFixed(3))})`;

/**
 * What keeps a list of points from being an outline: too few, no length, folded back, crossing or touching
 * itself, no area. Everything at once.
 * @param path where it stands in the file
 * @param name of the area, for the sentences
 */
export function outlineIssues(
  points: readonly Point[],
  path: string,
  name: string,
): OutlineIssue[] {
  if (points.length < 3) {
    const message = `${name} has ${points.length} points; an outline needs 3 or more.`;
    return [{ path, message, level: 'refuse', at: points[0] ?? null }];
  }
  const issues: OutlineIssue[] = [];
  const refuse = (message: string, at: Point): void => {
    issues.push({ path, message, level: 'refuse', at });
  };
  const n = points.length;
  const kept = points.flatMap((a, i) => {
    const b = points[(i + 1) % n]!;
    const lengthM = distanceM(a, b);
    if (lengthM >= TOUCH_M) return [{ number: i + 1, a, b }];
    const last = i === n - 1 ? ' The first point is not repeated at the end.' : '';
    const length = metres(lengthM);
    refuse(
      `Edge ${i + 1} of ${name} is ${length} long at ${place(a)}; 1 mm or more is needed.${last}`,
      a,
    );
    return [];
  });
  kept.forEach(({ number, a, b }, i) => {
    if (kept.length < 3) return;
    const next = kept[(i + 1) % kept.length]!;
    const angleDeg = insideAngleDeg(a, b, next.b);
    if (angleDeg < FOLDED_DEG || angleDeg > 360 - FOLDED_DEG)
      refuse(
        `Edges ${number} and ${next.number} of ${name} fold back on each other at ${place(b)}.`,
        b,
      );
  });
  let crossings = 0;
  for (let i = 0; i < kept.length; i += 1) {
    for (let j = i + 2; j < kept.length; j += 1) {
      if (i === 0 && j === kept.length - 1) continue;
      const [e, f] = [kept[i]!, kept[j]!];
      if (!boxesNear(e.a, e.b, f.a, f.b)) continue;
      const meet = segmentsMeet(e.a, e.b, f.a, f.b);
      if (meet.gapM >= TOUCH_M) continue;
      crossings += 1;
      if (crossings > NAMED_CROSSINGS) continue;
      refuse(
        `Edges ${e.number} and ${f.number} of ${name} cross or touch at ${place(meet.at)}; an outline may not meet itself.`,
        meet.at,
      );
    }
  }
  if (crossings > NAMED_CROSSINGS)
    refuse(
      `${name} crosses or touches itself at ${crossings - NAMED_CROSSINGS} more places.`,
      points[0]!,
    );
  const areaM2 = Math.abs(signedAreaM2(points));
  if (issues.length === 0 && areaM2 < SMALLEST_M2)
    refuse(
      `${name} encloses ${Number(areaM2.toFixed(4))} m2; ${SMALLEST_M2} m2 or more is needed.`,
      middle(points[0]!, points[1]!),
    );
  return issues;
}

function boxesNear(a: Point, b: Point, c: Point, d: Point): boolean {
  return [0, 1].every((k) => {
    const axis = k as 0 | 1;
    return (
      Math.min(a[axis], b[axis]) <= Math.max(c[axis], d[axis]) + TOUCH_M &&
      Math.min(c[axis], d[axis]) <= Math.max(a[axis], b[axis]) + TOUCH_M
    );
  });
}
