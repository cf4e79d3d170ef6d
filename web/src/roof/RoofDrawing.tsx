import { useMemo, useState } from 'preact/hooks';

/** What the drawing says of itself, for those who cannot see it; read alone, since its style is not the page's. */
function wordsOf(svg: string): string {
  const [, escaped = ''] = /<desc[^>]*>([^<]*)</.exec(svg) ?? [];
  return new DOMParser().parseFromString(escaped, 'text/html').body.textContent ?? '';
}

/** The server's drawing as a picture: nothing inside it can reach the page. */
export function RoofDrawing({ svg, name }: { svg: string; name: string }) {
  const [large, setLarge] = useState(false);
  const words = useMemo(() => wordsOf(svg), [svg]);
  const picture = (
    <img
      src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`}
      alt={`Drawing of ${name}: sheets numbered in the order of laying, laps and edges; in words below.`}
    />
  );
  return (
    <div class="roof-picture">
      {large ? (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling picture must be reached by keyboard
        <section class="roof-scroll" aria-label="Drawing, large" tabIndex={0}>
          {picture}
        </section>
      ) : (
        picture
      )}
      <button type="button" class="plain" aria-pressed={large} onClick={() => setLarge(!large)}>
        Draw it large
      </button>
      <details>
        <summary>The drawing in words</summary>
        <p>{words}</p>
      </details>
    </div>
  );
}
