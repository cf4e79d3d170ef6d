import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Firm } from '../../../../src/contract/index.ts';
import { systemNowMs } from '../../../../src/time/index.ts';
import { useHeld } from '../../api/held.ts';
import { FIRM } from '../../api/paths.ts';

const TICK_MS = 10_000;

/**
 * The present on site, running on: the server's clock, not the phone's own, which may be wrong; the
 * demo's jobs have a clock of their own. Null until the server has said.
 */
export function useSiteNow(demo: boolean): { readonly nowMs: number | null; at(): number | null } {
  const firm = useHeld<Firm>(FIRM).data;
  const heard = useMemo(() => {
    if (firm === null) return null;
    const phoneMs = systemNowMs();
    return { phoneMs, offMs: (demo ? firm.nowMs : firm.presentMs) - phoneMs };
  }, [firm, demo]);
  const [phoneMs, setPhoneMs] = useState(systemNowMs);
  useEffect(() => {
    const timer = setInterval(() => setPhoneMs(systemNowMs()), TICK_MS);
    return () => clearInterval(timer);
  }, []);
  return {
    // The last tick may be from before the server was heard: the present is never before that.
    nowMs: heard === null ? null : Math.max(phoneMs, heard.phoneMs) + heard.offMs,
    at: () => (heard === null ? null : systemNowMs() + heard.offMs),
  };
}
