import { readFileSync } from 'node:fs';
import { type ProductShelf, type ReadyJob, readJob } from '../answers/index.ts';
import { parseInstant } from '../time/index.ts';
import { BadInput, badInput, type InputIssue } from './bad-input.ts';

const WHY_UNREADABLE: Readonly<Record<string, string>> = {
  ENOENT: 'does not exist',
  EISDIR: 'is a folder',
  EACCES: 'may not be read by you',
};

/** @param what  what the file is for, as messages name it */
export function readBytes(file: string, what: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? '';
    const why = WHY_UNREADABLE[code] ?? `cannot be read (${code})`;
    throw badInput(what, `The ${what} '${file}' ${why}; give the path of a file.`);
  }
}

export function readJobFile(file: string, shelf: ProductShelf): ReadyJob {
  const value = parseJson(readBytes(file, 'job file'), file, 'job file');
  const read = readJob(value, shelf);
  if (!read.ok) throw new BadInput(read.issues);
  return read;
}

/** @param what  what the file is for, as messages name it */
export function parseJson(bytes: Uint8Array, file: string, what: string): unknown {
  if (bytes.length === 0) throw badInput(what, `The ${what} '${file}' is empty.`);
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw badInput(what, `The ${what} '${file}' is not text; it must be JSON in UTF-8.`);
  }
  try {
    return JSON.parse(text);
  } catch (error) {
    const why = (error as Error).message;
    throw badInput(what, `The ${what} '${file}' is not valid JSON: ${why}.`);
  }
}

/** `--now` and `--coated`: ISO 8601 with an offset, or local to the zone given. */
export function readInstant(
  option: string,
  text: string,
  zone: string | null,
): number | InputIssue {
  const read = parseInstant(text, zone);
  return read.ok ? read.ms : { path: option, message: `${option} ${read.message}.` };
}

export function readNumber(
  option: string,
  text: string,
  low: number,
  high: number,
): number | InputIssue {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value >= low && value <= high) return value;
  return {
    path: option,
    message: `${option} is ${quote(text)}; it must be a number from ${low} to ${high}.`,
  };
}

const LONGEST_QUOTE = 60;

export function quote(text: string): string {
  return text.length > LONGEST_QUOTE ? `'${text.slice(0, LONGEST_QUOTE)}…'` : `'${text}'`;
}
