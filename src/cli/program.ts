import { Command, CommanderError } from 'commander';
import { BadInput } from './bad-input.ts';
import { type ClockOptions, clock } from './commands/clock.ts';
import { days, type JobOptions } from './commands/days.ts';
import { work } from './commands/work.ts';
import type { Io } from './io.ts';

export const EXIT = { done: 0, failed: 1, badInput: 2 } as const;

/**
 * Runs one command line.
 * @param args  arguments after the program's name
 * @returns the exit code: 0 done, 2 bad input (nothing written), 1 anything else
 */
export async function runCli(args: readonly string[], io: Io): Promise<number> {
  try {
    await program(io).parseAsync([...args], { from: 'user' });
    return EXIT.done;
  } catch (error) {
    return explain(error, args.includes('--json'), io);
  }
}

function program(io: Io): Command {
  const root = new Command('layfair')
    .description(
      'Which day to lay a bonded rubber-membrane roof, what happens when, and when each adhesive is ready.',
    )
    .exitOverride()
    .configureOutput({
      writeOut: io.out,
      writeErr: io.err,
      outputError: (text, write) => write(text),
    })
    .showHelpAfterError('(layfair --help shows what is accepted)');
  root
    .command('days')
    .description('laying days ranked: start, chance, finish, rain-safe by, what could stop it')
    .argument('<JOB.json>', 'the job')
    .option(
      '--weather <FILE>',
      'saved forecast or ensemble response (JSON, also gzipped); without it the live feed is asked',
    )
    .option('--now <ISO>', 'plan as if it were this time; without an offset, local to the site')
    .option('--json', 'print the answer as JSON')
    .action((file: string, options: JobOptions) => days(file, options, io));
  root
    .command('work')
    .description('the order of work for one day: times, waits, hold points, last safe starts')
    .argument('<JOB.json>', 'the job')
    .requiredOption('--day <YYYY-MM-DD>', 'the day, local to the site')
    .option(
      '--weather <FILE>',
      'saved forecast or ensemble response; without it the live feed is asked',
    )
    .option('--now <ISO>', 'plan as if it were this time')
    .option('--json', 'print the answer as JSON')
    .action((file: string, options: JobOptions & { day: string }) => work(file, options, io));
  root
    .command('clock')
    .description(
      'when a coated area is touch dry and until when it is usable, or why it will not dry',
    )
    .argument('<PRODUCT>', 'product id, e.g. contact-solvent')
    .requiredOption('--coated <ISO>', 'when it was coated')
    .option('--weather <FILE>', 'saved forecast or ensemble response')
    .option('--job <JOB.json>', 'the job whose deck it is on; with --weather or the live feed')
    .option('--air <C>', 'air temperature, °C')
    .option('--rh <PERCENT>', 'relative humidity, %')
    .option('--wind <MPS>', 'wind over the film, m/s')
    .option('--surface <C>', 'surface temperature, °C; as the air where left out')
    .option('--zone <IANA>', 'time zone to read and print times in where no job gives one (UTC)')
    .option('--now <ISO>', 'plan as if it were this time')
    .option('--json', 'print the answer as JSON')
    .action((product: string, options: ClockOptions) => clock(product, options, io));
  return root;
}

function explain(error: unknown, json: boolean, io: Io): number {
  if (error instanceof CommanderError) {
    // Help and version come this way too, with exit code 0.
    return error.exitCode === 0 ? EXIT.done : EXIT.badInput;
  }
  if (error instanceof BadInput) {
    const body = {
      ok: false,
      error: { code: 'bad-input', message: error.message, issues: error.issues },
    };
    io.err(json ? `${JSON.stringify(body, null, 2)}\n` : `${error.message}\n`);
    return EXIT.badInput;
  }
  io.err(`Layfair failed: ${error instanceof Error ? error.message : String(error)}\n`);
  return EXIT.failed;
}
