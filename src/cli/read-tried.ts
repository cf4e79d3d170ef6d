import type { ReadyJob } from '../answers/index.ts';
import { triedIssues } from '../answers/index.ts';
import {
  type CostName,
  LEAST_BAY_M2,
  MOST_BAY_M2,
  MOST_COST,
  type Tried,
} from '../contract/index.ts';
import { BadInput, type InputIssue } from './bad-input.ts';
import { quote, readNumber } from './read-input.ts';

export interface TriedOptions {
  readonly cost?: readonly string[];
  readonly bay?: string;
}

/** What each cost is called on a command line. */
export const COST_WORDS: Readonly<Record<string, CostName>> = {
  'stand-down': 'standDown',
  'called-off': 'calledOff',
  shortened: 'shortened',
  'caught-open': 'caughtOpen',
  wait: 'waitPerDay',
};

/** `--cost stand-down=500 --bay 31`: figures tried for this one answer; every problem at once. */
export function readTried({ cost = [], bay }: TriedOptions, ready: ReadyJob): Tried {
  const issues: InputIssue[] = [];
  const tried: { -readonly [K in keyof Tried]: Tried[K] } = {};
  const keep = (name: keyof Tried, read: number | InputIssue): void => {
    if (typeof read === 'number') tried[name] = read;
    else issues.push(read);
  };
  for (const text of cost) {
    const [name = '', ...rest] = text.split('=');
    const known = Object.hasOwn(COST_WORDS, name) ? COST_WORDS[name] : undefined;
    if (known === undefined) issues.push(refuse(text, `it must begin with one of ${names()}`));
    else if (tried[known] !== undefined) issues.push(refuse(text, `${name} is given twice`));
    else keep(known, readMoney(text, rest.join('=')));
  }
  if (bay !== undefined) keep('bay', readNumber('--bay', bay, LEAST_BAY_M2, MOST_BAY_M2));
  if (issues.length === 0) {
    for (const { path, message } of triedIssues(ready, tried)) {
      issues.push(asOption(path, message));
    }
  }
  if (issues.length > 0) throw new BadInput(issues);
  return tried;
}

const names = (): string =>
  Object.keys(COST_WORDS)
    .map((name) => `${name}=`)
    .join(', ');

const refuse = (text: string, why: string): InputIssue => ({
  path: '--cost',
  message: `--cost is ${quote(text)}; ${why}.`,
});

function readMoney(text: string, value: string): number | InputIssue {
  const read = readNumber('--cost', value, 0, MOST_COST);
  return typeof read === 'number'
    ? read
    : refuse(text, `after = it must be a number from 0 to ${MOST_COST}`);
}

/** What the answer names by its field is an option here. */
function asOption(path: string, message: string): InputIssue {
  if (path === 'bay') return { path: '--bay', message: `--${message}` };
  if (path !== 'calledOff') return { path, message };
  const told = message
    .replace('calledOff is', '--cost called-off is')
    .replace('standDown', 'stand-down');
  return { path: '--cost', message: told };
}
