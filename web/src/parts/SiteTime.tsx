import { timeFrom } from '../time/site-time.ts';

interface Props {
  readonly ms: number;
  readonly zone: string;
  /** The site's date on screen; another day's time carries its own day. */
  readonly lookingAt: string;
}

export function SiteTime({ ms, zone, lookingAt }: Props) {
  return <time dateTime={new Date(ms).toISOString()}>{timeFrom(ms, zone, lookingAt)}</time>;
}
