import { type Command, CommanderError } from 'commander';
import { StoreError } from '../store/index.ts';
import { BadInput, Stopped } from './bad-input.ts';
import type { Io } from './io.ts';

export const EXIT = { done: 0, failed: 1, badInput: 2 } as const;

interface Told {
  readonly exit: number;
  readonly code: string;
  readonly message: string;
  readonly issues: readonly { readonly path: string; readonly message: string }[];
}

/**
 * Says on stderr what went wrong, as sentences or with `--json` as JSON.
 * @returns the exit code
 */
export function explain(error: unknown, root: Command, args: readonly string[], io: Io): number {
  // Help asked for comes this way too, already printed.
  if (error instanceof CommanderError && error.exitCode === 0) return EXIT.done;
  const { exit, code, message, issues } = tell(error, root, args);
  const body = { ok: false, error: { code, message, issues } };
  io.err(args.includes('--json') ? `${JSON.stringify(body, null, 2)}\n` : `${message}\n`);
  return exit;
}

function tell(error: unknown, root: Command, args: readonly string[]): Told {
  if (error instanceof CommanderError) {
    const message = lineSentence(error, root, args);
    const issues = [{ path: 'command line', message }];
    return { exit: EXIT.badInput, code: 'bad-input', message, issues };
  }
  if (error instanceof Stopped) {
    const exit = error instanceof BadInput ? EXIT.badInput : EXIT.failed;
    return { exit, code: error.code, message: error.message, issues: error.issues };
  }
  const why = error instanceof Error ? error.message : String(error);
  const message = error instanceof StoreError ? why : `Layfair failed: ${why}`;
  return { exit: EXIT.failed, code: 'failed', message, issues: [] };
}

/** What is wrong with the line itself, and what is accepted instead. */
function lineSentence(error: CommanderError, root: Command, args: readonly string[]): string {
  const names = root.commands.map((command) => command.name());
  const command = root.commands.find((candidate) => candidate.name() === args[0]);
  const whatFor = `layfair ${command === undefined ? '' : `${command.name()} `}--help`;
  if (error.code === 'commander.help') {
    return `No command is given; commands are ${names.join(', ')} (${whatFor}).`;
  }
  const [first = ''] = error.message.replace(/^error: /, '').split('\n');
  const accepted =
    command === undefined
      ? `commands are ${names.join(', ')}`
      : `'layfair ${command.name()}' takes ${[
          ...command.registeredArguments.map((argument) => `<${argument.name()}>`),
          ...command.options.map((option) => option.flags),
        ].join(', ')}`;
  return `${first.charAt(0).toUpperCase()}${first.slice(1)}; ${accepted} (${whatFor}).`;
}
