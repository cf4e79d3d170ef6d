import { createHash } from 'node:crypto';
import { serialize } from 'node:v8';

/**
 * What crosses to a thread arrives as a copy each time. Gives for every copy the first one of the same
 * content, so that what was worked out from it is found again.
 * @param most  so many are remembered, the latest asked for
 */
export class OneOfEach<T extends object> {
  readonly #most: number;
  readonly #known = new Map<string, T>();

  constructor(most: number) {
    this.#most = most;
  }

  of(copy: T): T {
    const key = createHash('sha256').update(serialize(copy)).digest('base64');
    const first = this.#known.get(key) ?? copy;
    this.#known.delete(key);
    this.#known.set(key, first);
    for (const oldest of this.#known.keys()) {
      if (this.#known.size <= this.#most) break;
      this.#known.delete(oldest);
    }
    return first;
  }
}
