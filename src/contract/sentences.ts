import type { z } from 'zod';
import type { Issue } from './api.ts';

/**
 * Turns what zod found into sentences that name the field, the value and what is accepted.
 * @param input  the value that was checked, to quote from
 */
export function issueSentences(error: z.ZodError, input: unknown): Issue[] {
  return error.issues.flatMap((issue) => sentencesFor(issue, input));
}

function sentencesFor(issue: z.core.$ZodIssue, input: unknown): Issue[] {
  const path = issue.path.map(String).join('.');
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => {
      const at = path === '' ? key : `${path}.${key}`;
      return {
        path: at,
        message: `${at} is not a field Layfair knows here. Maybe it is misspelt.`,
      };
    });
  }
  const value = issue.path.reduce<unknown>(
    (at, key) =>
      typeof at === 'object' && at !== null ? (at as Record<PropertyKey, unknown>)[key] : undefined,
    input,
  );
  const name = path === '' ? 'The input' : path;
  if (value === undefined) return [{ path, message: `${name} is missing; ${accepted(issue)}.` }];
  return [{ path, message: `${name} is ${show(value)}; ${accepted(issue)}.` }];
}

function accepted(issue: z.core.$ZodIssue): string {
  // A schema's own words say more than the kind of the fault.
  if (issue.message.startsWith('must ')) return `it ${issue.message}`;
  switch (issue.code) {
    case 'too_small':
      return issue.origin === 'string' || issue.origin === 'array'
        ? `it needs at least ${countOf(Number(issue.minimum), issue.origin)}`
        : `it must be ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}`;
    case 'too_big':
      return issue.origin === 'string' || issue.origin === 'array'
        ? `it may have at most ${countOf(Number(issue.maximum), issue.origin)}`
        : `it must be ${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}`;
    case 'invalid_type':
      return `it must be ${withArticle(issue.expected === 'int' ? 'whole number' : issue.expected)}`;
    case 'invalid_value':
      return `it must be ${issue.values.length > 1 ? 'one of ' : ''}${issue.values.join(', ')}`;
    case 'invalid_format':
      if (issue.format === 'uuid')
        return 'it must be a UUID such as 3f2b1c9e-6d54-4a7e-9f10-2b8c7d6e5f40';
      return `it must be a valid ${issue.format}`;
    case 'invalid_union':
      return oneOfKinds(issue.message);
    default:
      return issue.message;
  }
}

/** zod names the kinds of a tagged union in its message only, in quotes. */
function oneOfKinds(message: string): string {
  const kinds = [...message.matchAll(/'([^']+)'/g)].map((match) => match[1]);
  return kinds.length > 0 ? `it must be one of ${kinds.join(', ')}` : 'it fits none of its kinds';
}

function countOf(count: number, origin: string): string {
  const [one, many] = origin === 'string' ? ['character', 'characters'] : ['entry', 'entries'];
  return `${count} ${count === 1 ? one : many}`;
}

function withArticle(noun: string): string {
  if (noun === 'object') return 'an object { ... }';
  if (noun === 'array') return 'a list [ ... ]';
  if (noun === 'string') return 'text';
  if (noun === 'boolean') return 'true or false';
  return `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`;
}

const LONGEST_QUOTE = 60;

function show(value: unknown): string {
  if (typeof value === 'object' && value !== null)
    return Array.isArray(value) ? 'a list' : 'an object';
  const text = typeof value === 'string' ? `'${value}'` : String(value);
  return text.length > LONGEST_QUOTE ? `${text.slice(0, LONGEST_QUOTE)}…` : text;
}
