import {
  answerClockForecast,
  answerClockSteady,
  type CoatDetails,
  coatIssues,
} from '../../answers/index.ts';
import type { ClockAnswer } from '../../contract/index.ts';
import type { Product } from '../../products/index.ts';
import { isTimeZone } from '../../time/index.ts';
import { BadInput, badInput, type InputIssue, NoForecast } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { printClock } from '../print/clock.ts';
import { readCoat } from '../read-coat.ts';
import { quote, readJobFile, readNumber } from '../read-input.ts';
import { productShelf } from '../read-products.ts';
import { findWeather } from '../weather.ts';

export interface ClockOptions {
  readonly coated: string;
  readonly until?: string;
  readonly closed?: string;
  readonly faces?: string;
  readonly weather?: string;
  readonly job?: string;
  readonly now?: string;
  readonly air?: string;
  readonly rh?: string;
  readonly wind?: string;
  readonly surface?: string;
  readonly zone?: string;
  readonly products?: string;
  readonly json?: boolean;
}

const NUMBERS = ['air', 'rh', 'wind', 'surface'] as const;
const EITHER_OR =
  'Give either --air, --rh and --wind (and --surface), or a forecast with --weather or --job';

interface Answered {
  readonly answer: ClockAnswer;
  readonly zone: string;
  readonly nowMs: number;
}

/** `layfair clock PRODUCT --coated ISO`: touch dry at, usable until, or why it will not dry. */
export async function clock(productId: string, options: ClockOptions, io: Io): Promise<void> {
  const shelf = productShelf(options.products, io);
  const product = shelf.get(productId);
  if (product === undefined) {
    throw badInput(
      'product',
      `product is ${quote(productId)}; known products are ${[...shelf.keys()].join(', ')}.`,
    );
  }
  const numbers = NUMBERS.filter((name) => options[name] !== undefined);
  const onForecast = options.job !== undefined || options.weather !== undefined;
  if (numbers.length > 0 && onForecast) {
    const given = numbers.map((name) => `--${name}`).join(', ');
    throw badInput('clock', `${EITHER_OR}, not both: here ${given} stands beside a forecast.`);
  }
  if (numbers.length === 0 && !onForecast) throw badInput('clock', `${EITHER_OR}.`);
  checkZone(options);
  const { answer, zone, nowMs } = onForecast
    ? await clockOnForecast(product, options, io)
    : clockSteady(product, options);
  io.out(
    options.json === true
      ? `${JSON.stringify(answer, null, 2)}\n`
      : printClock(answer, zone, nowMs),
  );
}

function checkZone({ zone, job }: ClockOptions): void {
  if (zone === undefined) return;
  if (!isTimeZone(zone)) {
    throw badInput(
      '--zone',
      `--zone is ${quote(zone)}; it must be an IANA time zone such as Europe/Dublin.`,
    );
  }
  if (job !== undefined) {
    throw badInput(
      '--zone',
      `--zone is ${quote(zone)} beside --job; the job brings its own time zone.`,
    );
  }
}

function clockSteady(product: Product, options: ClockOptions): Answered {
  const zone = options.zone ?? 'UTC';
  if (options.now !== undefined) {
    throw badInput(
      '--now',
      '--now goes with a forecast; with --air, --rh and --wind it has no use.',
    );
  }
  const coat = readCoat(options, zone);
  const number = (name: (typeof NUMBERS)[number], low: number, high: number) => {
    const text = options[name];
    if (text !== undefined) return readNumber(`--${name}`, text, low, high);
    if (name === 'surface') return null;
    const message = `--${name} is missing; --air, --rh and --wind go together.`;
    return { path: `--${name}`, message };
  };
  const air = number('air', -30, 50);
  const rh = number('rh', 1, 100);
  const wind = number('wind', 0, 40);
  const surface = number('surface', -30, 90);
  const issues = [air, rh, wind, surface].filter(
    (read): read is InputIssue => typeof read === 'object' && read !== null,
  );
  if (!coat.ok) issues.unshift(...coat.issues);
  else issues.push(...asOptions(coatIssues(product, coat.coatedMs, coat.more), options));
  if (!coat.ok || issues.length > 0) throw new BadInput(issues);
  const answer = answerClockSteady(
    product,
    coat.coatedMs,
    {
      airTempC: air as number,
      relHumPct: rh as number,
      windMps: wind as number,
      surfaceTempC: surface as number | null,
    },
    zone,
    coat.more,
  );
  return { answer, zone, nowMs: coat.coatedMs };
}

async function clockOnForecast(product: Product, options: ClockOptions, io: Io): Promise<Answered> {
  const job =
    options.job === undefined
      ? null
      : readJobFile(options.job, productShelf(options.products, io)).job;
  const zone = job?.site.timeZone ?? options.zone ?? 'UTC';
  const coat = readCoat(options, zone);
  if (!coat.ok) throw new BadInput(coat.issues);
  const { coatedMs } = coat;
  const found = await findWeather(job, options, io, zone);
  if (!found.ok) throw new NoForecast(found.why);
  const { weather: hourly, nowMs } = found;
  const more: CoatDetails = { ...coat.more, nowMs };
  const result = answerClockForecast({ product, hourly, coatedMs, job, timeZone: zone, more });
  if (!result.ok) throw new BadInput(asOptions(result.issues, options));
  return { answer: result.answer, zone, nowMs };
}

/** A field's name, and the sentence that begins with it, as the option they came from. */
function asOptions(issues: readonly InputIssue[], { coated }: ClockOptions): InputIssue[] {
  return issues.map(({ path, message }) => ({
    path: `--${path}`,
    message: `--${message.replace(/^coated lies/, `coated is ${quote(coated)}; it lies`)}`,
  }));
}
