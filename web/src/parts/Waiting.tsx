import { useEffect, useState } from 'preact/hooks';

/** Anything slower than this is explained; anything faster would only flicker. */
const SAY_AFTER_MS = 400;
const SAY_MORE_AFTER_MS = 8_000;

/** Words for work that takes longer than a blink. */
export function Waiting({ words }: { words: string }) {
  const [waitedMs, setWaitedMs] = useState(0);
  useEffect(() => {
    const soon = setTimeout(() => setWaitedMs(SAY_AFTER_MS), SAY_AFTER_MS);
    const later = setTimeout(() => setWaitedMs(SAY_MORE_AFTER_MS), SAY_MORE_AFTER_MS);
    return () => {
      clearTimeout(soon);
      clearTimeout(later);
    };
  }, []);
  return (
    <p class="waiting" role="status">
      {waitedMs >= SAY_AFTER_MS && words}
      {waitedMs >= SAY_MORE_AFTER_MS && ' Taking longer than usual; still working.'}
    </p>
  );
}
