import { useEffect, useRef, useState } from 'preact/hooks';
import type { DayOption } from '../../../src/contract/index.ts';

/** Unranked days, on which no start fits, come last. */
export function bestFirst(days: readonly DayOption[]): DayOption[] {
  return [...days].sort(
    (a, b) =>
      (a.rank ?? Number.POSITIVE_INFINITY) - (b.rank ?? Number.POSITIVE_INFINITY) ||
      a.date.localeCompare(b.date),
  );
}

/** Scrolled so far, the page is being read. */
const READING_PX = 40;

export interface DayOrder {
  readonly days: readonly DayOption[];
  /** The day that stood open at first. */
  readonly open: string | null;
  /** The best is no longer first: the reader may have it so, but nothing jumps by itself. */
  readonly stale: boolean;
  readonly renew: () => void;
  /** Whoever touches the list reads it. */
  readonly touched: () => void;
}

/** The days in order; a search that goes on does not move them once somebody reads. */
export function useOrder(days: readonly DayOption[], byDate: boolean): DayOrder {
  const reading = useRef(false);
  const order = useRef<readonly string[]>([]);
  const open = useRef<string | null>(null);
  const [, renew] = useState(0);
  useEffect(() => {
    const scrolled = () => {
      if (window.scrollY > READING_PX) reading.current = true;
    };
    scrolled();
    window.addEventListener('scroll', scrolled, { passive: true });
    return () => window.removeEventListener('scroll', scrolled);
  }, []);
  const best = bestFirst(days);
  if (byDate) {
    return {
      days: [...days].sort((a, b) => a.date.localeCompare(b.date)),
      open: best[0]?.date ?? null,
      stale: false,
      renew: () => undefined,
      touched: () => undefined,
    };
  }
  const wanted = best.map(({ date }) => date);
  const same =
    wanted.length === order.current.length && wanted.every((date) => order.current.includes(date));
  if (!reading.current || !same) {
    order.current = wanted;
    open.current = wanted[0] ?? null;
  }
  const byItsDate = new Map(days.map((day) => [day.date, day]));
  return {
    days: order.current.flatMap((date) => byItsDate.get(date) ?? []),
    open: open.current,
    stale: wanted.some((date, n) => date !== order.current[n]),
    renew: () => {
      reading.current = false;
      renew((before) => before + 1);
    },
    touched: () => {
      reading.current = true;
    },
  };
}
