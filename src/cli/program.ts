import { Command } from 'commander';
import { type AheadOptions, ahead } from './commands/ahead.ts';
import { type ClockOptions, clock } from './commands/clock.ts';
import { type DaysOptions, days } from './commands/days.ts';
import { type NowOptions, now } from './commands/now.ts';
import { type ProductOptions, product } from './commands/product.ts';
import { type TakeoffOptions, takeoff } from './commands/takeoff.ts';
import { type WorkOptions, work } from './commands/work.ts';
import { EXIT, explain } from './explain.ts';
import type { Io } from './io.ts';

/**
 * Runs one command line. The answer goes to `io.out`, everything else to `io.err`.
 * @param args  arguments after the program's name
 * @returns the exit code: 0 done, 2 bad input (nothing written), 1 anything else
 */
export async function runCli(args: readonly string[], io: Io): Promise<number> {
  const root = program(io);
  try {
    await root.parseAsync([...args], { from: 'user' });
    return EXIT.done;
  } catch (error) {
    return explain(error, root, args, io);
  }
}

const WEATHER_WORDS = 'saved forecast or ensemble answer (JSON, also gzipped)';
const NOW_WORDS = 'plan as if it were this time; without an offset, local to the site';

const READING_WORDS =
  'read on the deck: surface-temp in °C or moisture in % of dry mass; the model starts from it; may be repeated';
const DONE_WORDS =
  'tasks done, with commas: ids of work --json, field-1 for all of it, ..fold-1 for all up to it; may be repeated';
const COATED_WORDS =
  'coated today, field-1-2@10:40 for its first or field-1-2@10:40..10:47 for first and last; may be repeated';
const PRODUCTS_WORDS = 'products of your own: a file, or a folder of .json files';
const COST_WORDS =
  'a figure tried instead of the job’s: stand-down, called-off, shortened, caught-open or wait (a day); may be repeated';
const BAY_WORDS =
  'lay a bay of this size instead of the job’s split, m²; only before any bay is laid';
const oneMore = (text: string, before: readonly string[]): readonly string[] => [...before, text];

/** What every command takes that plans a job under a forecast. */
function onForecast(command: Command): Command {
  return command
    .option('--weather <FILE>', `${WEATHER_WORDS}; without it the live feed is asked`)
    .option('--now <ISO>', NOW_WORDS)
    .option('--reading <WHAT=VALUE@ISO>', READING_WORDS, oneMore, [])
    .option('--products <PATH>', PRODUCTS_WORDS)
    .option('--json', 'print the answer as JSON');
}

function program(io: Io): Command {
  const root = new Command('layfair')
    .description(
      'Which day to lay a bonded rubber-membrane roof, what happens when, and when each adhesive is ready.',
    )
    .exitOverride()
    // Problems are told once, by `explain`; help that was asked for goes where answers go.
    .configureOutput({ writeOut: io.out, writeErr: () => {}, outputError: () => {} })
    .addHelpText(
      'after',
      '\nExit codes: 0 answered, 1 no forecast to answer from or a failure, 2 something given is wrong.',
    );
  onForecast(
    root
      .command('days')
      .description('laying days ranked: start, chance, finish, rain-safe by, what could stop it')
      .argument('<JOB.json>', 'the job')
      .option('--quick', 'the first answer: one order of work and bay size, in under a second')
      .option('--cost <NAME=AMOUNT>', COST_WORDS, oneMore, []),
  ).action((file: string, options: DaysOptions) => days(file, options, io));
  onForecast(
    root
      .command('work')
      .description('the order of work for one day: times, waits, hold points, last safe starts')
      .argument('<JOB.json>', 'the job')
      .requiredOption('--day <YYYY-MM-DD>', 'the day, local to the site')
      .option('--bay <M2>', BAY_WORDS)
      .option('--cost <NAME=AMOUNT>', COST_WORDS, oneMore, []),
  ).action((file: string, options: WorkOptions) => work(file, options, io));
  root
    .command('clock')
    .description(
      'when a coated area is touch dry and until when it is usable, or why it will not dry',
    )
    .argument('<PRODUCT>', 'product id, e.g. contact-solvent')
    .requiredOption('--coated <ISO>', 'when it was coated; without an offset, local')
    .option('--until <ISO>', 'when the last square metre was coated; 10:20 = that day')
    .option('--closed <ISO>', 'when it was or will be brought together; 11:00 = that day')
    .option('--faces <LIST>', 'coated faces: deck,sheet,upstand,lap-top,lap-bottom')
    .option('--weather <FILE>', WEATHER_WORDS)
    .option('--job <JOB.json>', 'the job whose deck it is on; without --weather its own forecast')
    .option('--air <C>', 'air temperature, °C')
    .option('--rh <PERCENT>', 'relative humidity, %')
    .option('--wind <MPS>', 'wind over the film, m/s')
    .option('--surface <C>', 'surface temperature, °C; as the air where left out')
    .option('--zone <IANA>', 'time zone to read and print times in where no job gives one (UTC)')
    .option('--products <PATH>', PRODUCTS_WORDS)
    .option('--now <ISO>', 'how old the forecast is, as if it were this time')
    .option('--json', 'print the answer as JSON')
    .action((product: string, options: ClockOptions) => clock(product, options, io));
  onForecast(
    root
      .command('ahead')
      .description(
        'how far ahead to coat: the largest section that is closed in time, sun and shade',
      )
      .argument('<JOB.json>', 'the job')
      .requiredOption('--at <ISO>', 'when coating starts; without an offset, local to the site')
      .option('--what <field|edges|laps>', 'what is coated', 'field')
      .option('--people <N>', 'crew, 2 to 30; the job’s own where left out')
      .option('--bay <M2>', BAY_WORDS),
  ).action((file: string, options: AheadOptions) => ahead(file, options, io));
  onForecast(
    root
      .command('now')
      .description('the best way on from this minute, and how to close up from here')
      .argument('<JOB.json>', 'the job')
      .requiredOption('--at <ISO>', 'this minute; without an offset, local to the site')
      .option('--bay <M2>', BAY_WORDS)
      .option('--done <NAMES>', DONE_WORDS, oneMore, [])
      .option('--coated <NAME@TIME>', COATED_WORDS, oneMore, [])
      .option('--dry <NAME@TIME>', 'a coated film found touch dry by finger', oneMore, [])
      .option('--in-hand <NAME@TIME>', 'begun then and not yet done')
      .option('--rain-in <40m>', 'rain in so long, by your own eye')
      .option('--thunder-at <TIME>', 'last thunder heard; 11:10 = that day'),
  ).action((file: string, options: NowOptions) => now(file, options, io));
  root
    .command('takeoff')
    .description('what the roof asks for: areas, sheets, cut list, materials, stages, days, stops')
    .argument('<JOB.json>', 'the job')
    .option('--turn <DEG>', 'run the rolls this way: 0 = up the drawing, 90 = to the right')
    .option('--shift <M>', 'make the first course this much narrower, so that all courses move')
    .option('--drawing <FILE.svg>', 'also write the drawing of the roof, to a new file')
    .option('--products <PATH>', PRODUCTS_WORDS)
    .option('--json', 'print the answer as JSON')
    .action((file: string, options: TakeoffOptions) => takeoff(file, options, io));
  root
    .command('product')
    .description('checks a product file: what it comes to, every number with its source')
    .argument('<FILE.json>', 'a product of your own, or a whole product')
    .option('--json', 'print the answer as JSON')
    .action((file: string, options: ProductOptions) => product(file, options, io));
  return root;
}
