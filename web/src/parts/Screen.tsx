import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/** The first screen keeps the browser's own focus; later ones move it to their heading. */
let opened = false;

interface Props {
  /** Also the name of the browser tab. */
  readonly title: string;
  readonly above?: ComponentChildren;
  readonly children: ComponentChildren;
}

/** One page: its heading, and the focus and tab name that belong to it. */
export function Screen({ title, above, children }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · Layfair`;
  }, [title]);
  useEffect(() => {
    if (opened) heading.current?.focus({ preventScroll: true });
    opened = true;
  }, []);
  return (
    <main id="content" class="screen">
      {above}
      <h1 ref={heading} tabIndex={-1}>
        {title}
      </h1>
      {children}
    </main>
  );
}
