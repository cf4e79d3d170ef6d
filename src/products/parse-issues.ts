import type { z } from 'zod';
import { show } from './schema-words.ts';

/** What is wrong with one field: where, and a whole sentence to show. */
export interface ProductIssue {
  readonly path: string;
  readonly message: string;
}

/**
 * A schema's findings as sentences that begin with the name of the field.
 * @param schema  what `value` was read with; it names the fields there are
 * @param value  what was handed in
 */
export function issuesOf(error: z.ZodError, schema: z.ZodType, value: unknown): ProductIssue[] {
  const issues: ProductIssue[] = [];
  for (const issue of error.issues) {
    const path = issue.path.map(String);
    if (issue.code === 'unrecognized_keys') {
      for (const key of issue.keys) issues.push(unknownField(path, key, schema, value));
    } else if (issue.code === 'invalid_key') {
      issues.push(unknownField(path.slice(0, -1), path.at(-1) ?? '', schema, value));
    } else {
      const name = path.join('.');
      issues.push({ path: name, message: `${name === '' ? 'The file' : name} ${issue.message}` });
    }
  }
  return issues;
}

const LONGEST_NAME = 60;

function unknownField(
  parent: readonly string[],
  key: string,
  schema: z.ZodType,
  value: unknown,
): ProductIssue {
  const name = key.length > LONGEST_NAME ? `${key.slice(0, LONGEST_NAME)}...` : key;
  const path = [...parent, name].join('.');
  const known = fieldsAt(schema, parent).join(', ');
  const got = show(at(value, [...parent, key]));
  return {
    path,
    message: `${path} is ${got}, but there is no such field; accepted are ${known}.`,
  };
}

interface Inside {
  readonly shape?: Readonly<Record<string, Inside>>;
  readonly element?: Inside;
  readonly keyType?: { readonly options?: readonly string[] };
  readonly valueType?: Inside;
  readonly unwrap?: () => Inside;
}

/** Names of the fields an object may have at a place inside a schema. */
function fieldsAt(schema: z.ZodType, path: readonly string[]): readonly string[] {
  let here: Inside | undefined = bare(schema as unknown as Inside);
  for (const step of path) {
    here = bare(here?.shape?.[step] ?? here?.element ?? here?.valueType);
  }
  return here?.shape === undefined ? (here?.keyType?.options ?? []) : Object.keys(here.shape);
}

/** Past 'optional', 'nullable' and 'default', down to what holds fields or entries. */
function bare(schema: Inside | undefined): Inside | undefined {
  let here = schema;
  while (here !== undefined && here.element === undefined && here.unwrap !== undefined)
    here = here.unwrap();
  return here;
}

/** What stands at a place in anything; undefined where there is nothing. */
export function at(value: unknown, path: readonly string[]): unknown {
  let here = value;
  for (const key of path) {
    if (typeof here !== 'object' || here === null || !Object.hasOwn(here, key)) return undefined;
    here = (here as Record<string, unknown>)[key];
  }
  return here;
}
