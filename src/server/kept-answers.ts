import { MS_PER_MINUTE } from '../units/index.ts';

/** An answer this young is given again; it carries the time it was made for. */
const KEPT_MS = 5 * MS_PER_MINUTE;
const MOST_KEPT = 60;

interface Kept<T> {
  readonly madeMs: number;
  readonly answer: Promise<T>;
}

/**
 * Answers by what they depend on, so that the same question asked twice, also twice at once, is
 * worked out once. Failures are not kept.
 */
export class KeptAnswers<T> {
  readonly #kept = new Map<string, Kept<T>>();
  readonly #isWhole: (answer: T) => boolean;

  /** @param isWhole  whether an answer is all there is to find; others are given once and not kept */
  constructor(isWhole: (answer: T) => boolean = () => true) {
    this.#isWhole = isWhole;
  }

  /** @param key  everything the answer depends on but the time */
  get(key: string, nowMs: number): Promise<T> | null {
    const kept = this.#kept.get(key);
    if (kept === undefined || nowMs < kept.madeMs || nowMs - kept.madeMs >= KEPT_MS) return null;
    return kept.answer;
  }

  put(key: string, nowMs: number, answer: Promise<T>): void {
    const kept = { madeMs: nowMs, answer };
    this.#kept.delete(key);
    this.#kept.set(key, kept);
    for (const oldest of this.#kept.keys()) {
      if (this.#kept.size <= MOST_KEPT) break;
      this.#kept.delete(oldest);
    }
    const drop = (): void => {
      if (this.#kept.get(key) === kept) this.#kept.delete(key);
    };
    answer.then((whole) => {
      if (!this.#isWhole(whole)) drop();
    }, drop);
  }
}
