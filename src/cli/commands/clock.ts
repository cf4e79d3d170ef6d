import { answerClockForecast, answerClockSteady } from '../../answers/index.ts';
import type { ClockAnswer } from '../../contract/index.ts';
import { type Product, parseProduct } from '../../products/index.ts';
import { loadShelf } from '../../store/index.ts';
import { BadInput, badInput } from '../bad-input.ts';
import type { Io } from '../io.ts';
import { printClock } from '../print/clock.ts';
import { readInstant, readJobFile, readNumber } from '../read-input.ts';
import { findWeather } from '../weather.ts';

export interface ClockOptions {
  readonly coated: string;
  readonly weather?: string;
  readonly job?: string;
  readonly now?: string;
  readonly air?: string;
  readonly rh?: string;
  readonly wind?: string;
  readonly surface?: string;
  readonly zone?: string;
  readonly json?: boolean;
}

/** `layfair clock PRODUCT --coated ISO`: touch dry at, usable until, or why it will not dry. */
export async function clock(productId: string, options: ClockOptions, io: Io): Promise<void> {
  const shelf = loadShelf(io.dataDir, parseProduct);
  const product = shelf.get(productId);
  if (product === undefined) {
    throw badInput(
      'product',
      `product is '${productId}'; known products are ${[...shelf.keys()].join(', ')}.`,
    );
  }
  const steady = [options.air, options.rh, options.wind, options.surface].some(
    (text) => text !== undefined,
  );
  const onJob = options.job !== undefined || options.weather !== undefined;
  if (steady === onJob) {
    throw badInput(
      'clock',
      'Give either --air, --rh and --wind (and --surface), or a forecast with --weather or --job, not both.',
    );
  }
  const answer = steady
    ? clockSteady(product, options)
    : await clockOnForecast(product, options, io);
  io.out(
    options.json === true
      ? `${JSON.stringify(answer.answer, null, 2)}\n`
      : printClock(answer.answer, answer.zone),
  );
}

interface Answered {
  readonly answer: ClockAnswer;
  readonly zone: string;
}

function clockSteady(product: Product, options: ClockOptions): Answered {
  const zone = options.zone ?? 'UTC';
  const coatedMs = readInstant('--coated', options.coated, zone);
  const need = (name: 'air' | 'rh' | 'wind'): string => {
    const text = options[name];
    if (text === undefined)
      throw badInput(`--${name}`, `--${name} is missing; --air, --rh and --wind go together.`);
    return text;
  };
  const air = {
    airTempC: readNumber('--air', need('air'), -30, 50),
    relHumPct: readNumber('--rh', need('rh'), 1, 100),
    windMps: readNumber('--wind', need('wind'), 0, 40),
    surfaceTempC:
      options.surface === undefined ? null : readNumber('--surface', options.surface, -30, 90),
  };
  return { answer: answerClockSteady(product, coatedMs, air, zone), zone };
}

async function clockOnForecast(product: Product, options: ClockOptions, io: Io): Promise<Answered> {
  const job = options.job === undefined ? null : readJobFile(options.job, io).job;
  const zone = job?.site.timeZone ?? options.zone ?? 'UTC';
  const coatedMs = readInstant('--coated', options.coated, zone);
  const found = await findWeather(job, options, io);
  if (!found.ok) throw badInput('weather', found.why);
  const result = answerClockForecast({
    product,
    hourly: found.weather,
    coatedMs,
    job,
    timeZone: zone,
  });
  if (!result.ok)
    throw new BadInput(result.issues.map((issue) => ({ ...issue, message: `--${issue.message}` })));
  return { answer: result.answer, zone };
}
