import { readFileSync } from 'node:fs';
import { type ReadyJob, readJob } from '../answers/index.ts';
import { parseProduct } from '../products/index.ts';
import { loadShelf } from '../store/index.ts';
import { parseInstant } from '../time/index.ts';
import { BadInput, badInput } from './bad-input.ts';
import type { Io } from './io.ts';

export function readBytes(file: string, what: string): Uint8Array {
  try {
    return readFileSync(file);
  } catch (error) {
    const why =
      (error as NodeJS.ErrnoException).code === 'ENOENT' ? 'does not exist' : 'cannot be read';
    throw badInput(what, `${what} '${file}' ${why}; give the path of a file.`);
  }
}

export function readJobFile(file: string, io: Io): ReadyJob {
  const text = new TextDecoder('utf-8', { fatal: false }).decode(readBytes(file, 'job file'));
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw badInput(
      'job file',
      `job file '${file}' is not valid JSON: ${(error as Error).message}.`,
    );
  }
  const read = readJob(value, loadShelf(io.dataDir, parseProduct));
  if (!read.ok) throw new BadInput(read.issues);
  return read;
}

/** `--now` and `--coated`: ISO 8601 with an offset, or local to the zone given. */
export function readInstant(option: string, text: string, zone: string | null): number {
  const read = parseInstant(text, zone);
  if (!read.ok) throw badInput(option, `${option} ${read.message}.`);
  return read.ms;
}

export function readNumber(option: string, text: string, low: number, high: number): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!(value >= low && value <= high)) {
    throw badInput(option, `${option} is '${text}'; it must be a number from ${low} to ${high}.`);
  }
  return value;
}
