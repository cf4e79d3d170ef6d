/** Sets of numbers as sorted, disjoint intervals. */
export type Interval = readonly [from: number, to: number];

/** Union; intervals closer together than `gap` become one. */
export function union(parts: Interval[], gap = 1e-9): Interval[] {
  if (parts.length < 2) return parts;
  parts.sort((a, b) => a[0] - b[0]);
  const out: Interval[] = [];
  let [from, to] = parts[0]!;
  for (const [a, b] of parts) {
    if (a > to + gap) {
      out.push([from, to]);
      from = a;
      to = b;
    } else if (b > to) to = b;
  }
  out.push([from, to]);
  return out;
}

/** What is in a set and outside open intervals `away`; single points may remain. */
export function without(set: readonly Interval[], away: readonly Interval[]): Interval[] {
  let left: Interval[] = [...set];
  for (const [a, b] of away) {
    const next: Interval[] = [];
    for (const [from, to] of left) {
      if (b <= from || a >= to) {
        // A single point strictly inside the open interval goes too.
        if (!(from === to && a < from && b > from)) next.push([from, to]);
        continue;
      }
      if (from <= a) next.push([from, a]);
      if (to >= b) next.push([b, to]);
    }
    left = next;
  }
  return left;
}

export function within(set: readonly Interval[], from: number, to: number): Interval[] {
  const out: Interval[] = [];
  for (const [a, b] of set) {
    const lo = Math.max(a, from);
    const hi = Math.min(b, to);
    if (lo <= hi) out.push([lo, hi]);
  }
  return out;
}
