import type { ReadyJob } from '../answers/index.ts';
import type { SiteReading } from '../weather/index.ts';
import { BadInput, type InputIssue } from './bad-input.ts';
import type { Io } from './io.ts';
import { quote, readInstant, readJobFile, readNumber } from './read-input.ts';
import { productShelf } from './read-products.ts';

/** A job file together with what has been read on its deck. */
export function readJobOnSite(
  file: string,
  options: { readonly reading?: readonly string[]; readonly products?: string },
  io: Io,
): ReadyJob {
  const ready = readJobFile(file, productShelf(options.products, io));
  return { ...ready, readings: readReadings(options.reading ?? [], ready.job.site.timeZone) };
}

/** Accepted values: °C of the deck's surface, % of dry mass in the panel. */
const RANGES = { 'surface-temp': [-40, 100], moisture: [0, 100] } as const;

/**
 * `--reading surface-temp=14.2@2026-05-14T07:30`, as often as there are readings of the deck.
 * @param zone  for times without an offset
 */
function readReadings(texts: readonly string[], zone: string): SiteReading[] {
  const read = texts.map((text) => readReading(text, zone));
  const issues = read.flatMap((one) => ('issues' in one ? one.issues : []));
  if (issues.length > 0) throw new BadInput(issues);
  return read.filter((one): one is SiteReading => !('issues' in one));
}

function readReading(
  text: string,
  zone: string,
): SiteReading | { readonly issues: readonly InputIssue[] } {
  const found = /^(surface-temp|moisture)=([^@]*)@(.+)$/.exec(text);
  if (found === null) {
    const message = `--reading is ${quote(text)}; it must be like surface-temp=14.2@2026-05-14T07:30 or moisture=15@2026-05-14T07:30 (°C, % of dry mass).`;
    return { issues: [{ path: '--reading', message }] };
  }
  const [, what, valueText = '', atText = ''] = found;
  const kind = what as keyof typeof RANGES;
  const [low, high] = RANGES[kind];
  const atMs = readInstant('--reading', atText, zone);
  const value = readNumber(`--reading ${kind}`, valueText, low, high);
  if (typeof atMs === 'number' && typeof value === 'number') {
    return { atMs, surfaceId: 'deck', kind, value };
  }
  return { issues: [atMs, value].filter((one): one is InputIssue => typeof one !== 'number') };
}
