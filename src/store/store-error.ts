/**
 * What can go wrong with the file itself. Expected outcomes of a call (a version conflict, a missing
 * job) are values, see `Result`; these are failures of disk, file or installation, and are thrown.
 * The message is a sentence fit for a screen: what is wrong, with which file, and what to do.
 */
export const STORE_ERROR_CODES = [
  'cannot-open',
  'read-only',
  'not-a-database',
  'other-database',
  'damaged',
  'newer-version',
  'disk-full',
  'busy',
  'disk-error',
  'bundled-data',
] as const;
export type StoreErrorCode = (typeof STORE_ERROR_CODES)[number];

export class StoreError extends Error {
  readonly code: StoreErrorCode;

  constructor(code: StoreErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'StoreError';
    this.code = code;
  }
}

/** SQLite's primary result codes (sqlite.org/rescode.html), the low byte of every extended code. */
const BY_RESULT_CODE: Readonly<Record<number, StoreErrorCode>> = {
  5: 'busy',
  6: 'busy',
  8: 'read-only',
  10: 'disk-error',
  11: 'damaged',
  13: 'disk-full',
  14: 'cannot-open',
  26: 'not-a-database',
};

/** Codes of the operating system, met before SQLite is reached. */
const BY_SYSTEM_CODE: Readonly<Record<string, StoreErrorCode>> = {
  EACCES: 'read-only',
  EPERM: 'read-only',
  EROFS: 'read-only',
  ENOSPC: 'disk-full',
  EDQUOT: 'disk-full',
};

const SENTENCES: Readonly<
  Record<Exclude<StoreErrorCode, 'bundled-data'>, (file: string) => string>
> = {
  'cannot-open': (file) =>
    `The file '${file}' cannot be opened as a Layfair store. Check that its folder exists and that you may write in it.`,
  'read-only': (file) =>
    `The file '${file}' cannot be written: the file, its folder or the disk is read-only for you. Nothing was saved.`,
  'not-a-database': (file) =>
    `The file '${file}' is not a Layfair store (it is not an SQLite file). It was left as it is; choose another file or move it away.`,
  'other-database': (file) =>
    `The file '${file}' is an SQLite file of another program, not a Layfair store. It was left as it is; choose another file.`,
  damaged: (file) =>
    `The file '${file}' is damaged: its contents fail a check. It was left as it is; put back your last copy of it.`,
  'newer-version': (file) =>
    `The file '${file}' was written by a newer Layfair. It was left as it is; use that version or newer.`,
  'disk-full': (file) =>
    `The disk holding '${file}' is full. Nothing was saved; what was there before is untouched. Make room and try again.`,
  busy: (file) =>
    `The file '${file}' is in use by another program that has not let go of it. Nothing was saved; try again.`,
  'disk-error': (file) =>
    `The disk holding '${file}' reported an error. Nothing was saved; check the disk before you go on.`,
};

/** A row that SQLite finds in order and we cannot read. Comes out of the store as 'damaged'. */
export class UnreadableRow extends Error {}

export function storeError(
  code: Exclude<StoreErrorCode, 'bundled-data'>,
  file: string,
  detail?: string,
  cause?: unknown,
): StoreError {
  const sentence = SENTENCES[code](file);
  return new StoreError(code, detail ? `${sentence} (${detail})` : sentence, { cause });
}

/** The store error behind whatever the database library or the system threw; null = a bug, not ours to word. */
export function storeErrorFrom(error: unknown, file: string): StoreError | null {
  if (error instanceof StoreError) return error;
  if (error instanceof UnreadableRow) return storeError('damaged', file, error.message, error);
  if (!(error instanceof Error)) return null;
  const code = codeOf(error);
  return code === null || code === 'bundled-data'
    ? null
    : storeError(code, file, error.message, error);
}

function codeOf(error: Error): StoreErrorCode | null {
  const { rawCode, code } = error as Error & { rawCode?: unknown; code?: unknown };
  if (typeof rawCode === 'number') return BY_RESULT_CODE[rawCode & 0xff] ?? null;
  if (typeof code === 'string' && BY_SYSTEM_CODE[code]) return BY_SYSTEM_CODE[code];
  if (typeof code === 'string' && code.startsWith('E')) return 'cannot-open';
  // The library reports a failed open as text only, ending in SQLite's result code.
  const failedOpen = /^ConnectionFailed\(".*: (\d+)"\)$/s.exec(error.message);
  return failedOpen ? (BY_RESULT_CODE[Number(failedOpen[1]) & 0xff] ?? 'cannot-open') : null;
}

/** Runs `work`; failures of file and disk come out as `StoreError`, bugs as they are. */
export function wordingErrors<T>(file: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw storeErrorFrom(error, file) ?? error;
  }
}

export async function wordingErrorsAsync<T>(file: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw storeErrorFrom(error, file) ?? error;
  }
}
