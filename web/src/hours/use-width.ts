import type { RefObject } from 'preact';
import { useLayoutEffect, useState } from 'preact/hooks';

/** Width of an element in whole CSS pixels, kept up to date; null until it is first measured. */
export function useWidth(element: RefObject<HTMLElement | null>): number | null {
  const [width, setWidth] = useState<number | null>(null);
  useLayoutEffect(() => {
    const target = element.current;
    if (!target) return;
    const measure = () => setWidth(Math.floor(target.getBoundingClientRect().width));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(target);
    return () => observer.disconnect();
  }, [element]);
  return width;
}
