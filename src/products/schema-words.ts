import { z } from 'zod';
import { NUMBER_SOURCES } from './types.ts';

/** How the fields of a product say what is wrong with them. */

/** A value as a reader would write it, short enough for a sentence. */
export function show(value: unknown): string {
  if (typeof value === 'string')
    return `'${value.length > 40 ? `${value.slice(0, 40)}...` : value}'`;
  if (typeof value === 'number') return String(Number(value.toPrecision(6)));
  if (typeof value === 'boolean' || value === null) return String(value);
  return Array.isArray(value) ? `a list of ${value.length}` : 'an object';
}

export type Hint = (value: number) => string;

export const says =
  (accepted: string, hint: Hint = () => '') =>
  ({ input }: { readonly input?: unknown }): string => {
    const got = input === undefined ? 'is missing' : `is ${show(input)}`;
    return `${got}; accepted is ${accepted}.${typeof input === 'number' ? hint(input) : ''}`;
  };

export const oneOf = <const T extends readonly string[]>(values: T) =>
  z.enum(values, { error: says(`one of ${values.join(', ')}`) });

export const text = (max: number) => {
  const error = says(`a text of 1 to ${max} letters`);
  return z.string({ error }).regex(/\S/, { error }).max(max, { error });
};

export const sentences = (least: number, most: number) => {
  const error = says(`a list of ${least} to ${most} sentences`);
  return z.array(text(300), { error }).min(least, { error }).max(most, { error });
};

export const source = oneOf(NUMBER_SOURCES);
export const object = (what: string) => ({ error: says(what) });
