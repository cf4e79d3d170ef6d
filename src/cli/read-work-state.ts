import type { WorkState } from '../planner/index.ts';
import { localDayOf, wallTimeMs } from '../time/index.ts';
import { BadInput, type InputIssue } from './bad-input.ts';
import { quote, readInstant } from './read-input.ts';

export interface WorkStateOptions {
  readonly done: readonly string[];
  readonly coated: readonly string[];
  readonly dry: readonly string[];
  readonly inHand?: string;
  readonly rainIn?: string;
  readonly thunderAt?: string;
}

/**
 * `--done`, `--coated`, `--dry`, `--in-hand`, `--rain-in` and `--thunder-at`: where the work stands.
 * @param atMs  times alone, 10:40, are meant on the day this falls on
 */
export function readWorkState(options: WorkStateOptions, atMs: number, zone: string): WorkState {
  const issues: InputIssue[] = [];
  const moment = (option: string, text: string): number => {
    const read = readMoment(option, text, atMs, zone);
    if (typeof read === 'number') return read;
    issues.push(read);
    return 0;
  };
  const done = options.done
    .flatMap((text) => text.split(','))
    .flatMap((text) => {
      const [name = '', at, ...more] = text.trim().split('@');
      if (name === '' || at === '' || more.length > 0) {
        issues.push(
          unlike(
            '--done',
            text,
            'strip, field-1 or ..fold-1, each with its time where known: relax@09:15',
          ),
        );
        return [];
      }
      return [{ name, atMs: at === undefined ? null : moment('--done', at) }];
    });
  const dry = new Map<string, number>();
  for (const text of options.dry) {
    const found = /^([^@]+)@([^@]+)$/.exec(text.trim());
    if (found === null) issues.push(unlike('--dry', text, 'field-1-2@10:58'));
    else dry.set(found[1]!, moment('--dry', found[2]!));
  }
  const coated = options.coated.flatMap((text) => {
    const found = /^([^@]+)@(\S+?)(?:\.\.(\S+))?$/.exec(text.trim());
    if (found === null) {
      issues.push(
        unlike(
          '--coated',
          text,
          'field-1-2@10:40, or field-1-2@10:40..10:47 for the first and the last of it',
        ),
      );
      return [];
    }
    const [, name = '', first = '', last] = found;
    const touchDryMs = dry.get(name) ?? null;
    dry.delete(name);
    const firstMs = moment('--coated', first);
    const lastMs = last === undefined ? null : moment('--coated', last);
    return [{ name, firstMs, lastMs, touchDryMs }];
  });
  for (const name of dry.keys()) {
    const message = `--dry names ${quote(name)}, which no --coated names in the same words; a film is coated before it is dry.`;
    issues.push({ path: '--dry', message });
  }
  const state: WorkState = {
    done,
    coated,
    inHand: readInHand(options.inHand, moment, issues),
    thunderMs: options.thunderAt === undefined ? null : moment('--thunder-at', options.thunderAt),
    rainInMin: readRainIn(options.rainIn, issues),
    implies: false,
  };
  if (issues.length > 0) throw new BadInput(issues);
  return state;
}

/** A time of day alone is meant on the day asked about. */
function readMoment(option: string, text: string, atMs: number, zone: string): number | InputIssue {
  if (/^([01]\d|2[0-3]):[0-5]\d$/.test(text)) return wallTimeMs(localDayOf(atMs, zone), text, zone);
  if (/^\d{4}-/.test(text)) return readInstant(option, text, zone);
  const message = `${option} has the time ${quote(text)}; it must be like 10:40 or 2026-05-14T10:40.`;
  return { path: option, message };
}

function readInHand(
  text: string | undefined,
  moment: (option: string, text: string) => number,
  issues: InputIssue[],
): WorkState['inHand'] {
  if (text === undefined) return null;
  const found = /^([^@]+)@([^@]+)$/.exec(text.trim());
  if (found !== null) return { name: found[1]!, startMs: moment('--in-hand', found[2]!) };
  issues.push(unlike('--in-hand', text, 'unroll@09:20'));
  return null;
}

function readRainIn(text: string | undefined, issues: InputIssue[]): number | null {
  if (text === undefined) return null;
  const found = /^(?:(\d{1,2})h)?(?:(\d{1,3})m?)?$/.exec(text.trim());
  if (found !== null && text.trim() !== '')
    return Number(found[1] ?? 0) * 60 + Number(found[2] ?? 0);
  issues.push(unlike('--rain-in', text, '40m, 1h or 1h20m'));
  return null;
}

const unlike = (option: string, text: string, like: string): InputIssue => ({
  path: option,
  message: `${option} is ${quote(text)}; it must be like ${like}.`,
});
