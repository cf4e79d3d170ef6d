import type { Failure, FailureCode, Ok } from './types.ts';

export const ok = <T>(value: T): Ok<T> => ({ ok: true, value });

export function failure(code: FailureCode, message: string): Failure {
  return { ok: false, code, message };
}

export function failureWith<Current>(
  code: FailureCode,
  message: string,
  current: Current,
): Failure<Current> {
  return { ok: false, code, message, current };
}
