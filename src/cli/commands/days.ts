import { setImmediate } from 'node:timers/promises';
import { answerDays, answerWithoutForecast, asStopped } from '../../answers/index.ts';
import type { DaysAnswer } from '../../contract/index.ts';
import { Interrupted } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { printDays } from '../print/days.ts';
import { productShelf } from '../read-products.ts';
import { readJobOnSite } from '../read-readings.ts';
import { readTried } from '../read-tried.ts';
import { checkCovers, findWeather } from '../weather.ts';

export interface JobOptions {
  readonly weather?: string;
  readonly now?: string;
  readonly products?: string;
  readonly json?: boolean;
  readonly reading?: readonly string[];
}

export interface DaysOptions extends JobOptions {
  readonly quick?: boolean;
  readonly cost?: readonly string[];
}

/** `layfair days JOB.json`: laying days ranked. */
export async function days(file: string, options: DaysOptions, io: Io): Promise<void> {
  const ready = readJobOnSite(file, options, io);
  const tried = readTried(options, ready);
  const found = await findWeather(ready.job, options, io);
  if (found.ok) checkCovers(found, ready.job.site.timeZone);
  const depth = options.quick === true ? 'quick' : 'full';
  const shelf = [...productShelf(options.products, io).values()];
  const answer = found.ok
    ? await untilStopped(answerDays(ready, found.weather, found.nowMs, { depth, tried, shelf }), io)
    : answerWithoutForecast(ready, found.nowMs, found.why, tried);
  io.out(options.json === true ? `${JSON.stringify(answer, null, 2)}\n` : printDays(answer));
}

/** Drives a search to its end, or until Ctrl-C: then the best so far is the answer, and says so. */
async function untilStopped(search: ReturnType<typeof answerDays>, io: Io): Promise<DaysAnswer> {
  let stopped = false;
  let soFar: DaysAnswer | null = null;
  const forget = io.onInterrupt?.(() => {
    stopped = true;
  });
  try {
    for (;;) {
      const next = search.next();
      if (next.done) return next.value;
      soFar = next.value.soFar ?? soFar;
      // Lets the interrupt be heard between two pieces of the search.
      await setImmediate();
      if (stopped) break;
    }
  } finally {
    forget?.();
  }
  if (soFar === null) throw new Interrupted();
  return asStopped(soFar);
}
