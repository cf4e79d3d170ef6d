import { type Order, readNumbers } from './text.ts';

/** What is wrong with a pack, as a sentence. */
export class Fault extends Error {}

/** One object of a pack: every field is asked for by name, kind and range. */
export class Reader {
  readonly #fields: Readonly<Record<string, unknown>>;
  readonly #path: string;

  constructor(value: unknown, path: string) {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      throw new Fault(`The clock pack cannot be read: ${path} is no object. Fetch it again.`);
    }
    this.#fields = value as Record<string, unknown>;
    this.#path = path;
  }

  #wrong(name: string, asked: string): Fault {
    const value = JSON.stringify(this.#fields[name]) ?? 'missing';
    return new Fault(
      `The clock pack cannot be read: ${this.#path}${name} is ${value.slice(0, 40)}; it must be ${asked}. Fetch it again.`,
    );
  }

  #get(name: string): unknown {
    return Object.hasOwn(this.#fields, name) ? this.#fields[name] : undefined;
  }

  number(name: string, low: number, high: number): number {
    const value = this.#get(name);
    if (typeof value === 'number' && value >= low && value <= high) return value;
    throw this.#wrong(name, `a number from ${low} to ${high}`);
  }

  whole(name: string, low: number, high: number): number {
    const value = this.#get(name);
    if (Number.isSafeInteger(value) && (value as number) >= low && (value as number) <= high)
      return value as number;
    throw this.#wrong(name, `a whole number from ${low} to ${high}`);
  }

  text(name: string, longest: number): string {
    const value = this.#get(name);
    if (typeof value === 'string' && value.length > 0 && value.length <= longest) return value;
    throw this.#wrong(name, `a text of 1 to ${longest} characters`);
  }

  bool(name: string): boolean {
    const value = this.#get(name);
    if (typeof value === 'boolean') return value;
    throw this.#wrong(name, 'true or false');
  }

  oneOf<T extends string>(name: string, words: readonly T[]): T {
    const value = this.#get(name);
    const found = words.find((word) => word === value);
    if (found !== undefined) return found;
    throw this.#wrong(name, `one of ${words.join(', ')}`);
  }

  orNull<T>(name: string, read: () => T): T | null {
    return this.#get(name) === null ? null : read();
  }

  has(name: string): boolean {
    return this.#get(name) !== undefined;
  }

  inner(name: string): Reader {
    return new Reader(this.#get(name), `${this.#path}${name}.`);
  }

  /** A list of objects. */
  list(name: string, longest: number): Reader[] {
    const value = this.#get(name);
    if (!Array.isArray(value) || value.length > longest) {
      throw this.#wrong(name, `a list of at most ${longest}`);
    }
    return value.map((each, n) => new Reader(each, `${this.#path}${name}[${n}].`));
  }

  /** A list of exactly `length` whole numbers, none below the one before. */
  rising(name: string, length: number, low: number, high: number): number[] {
    const value = this.#get(name);
    const good =
      Array.isArray(value) &&
      value.length === length &&
      value.every(
        (each, n) =>
          Number.isInteger(each) &&
          (each as number) >= (n === 0 ? low : (value[n - 1] as number)) &&
          (each as number) <= high,
      );
    if (good) return value as number[];
    throw this.#wrong(name, `${length} whole numbers, rising, from ${low} to ${high}`);
  }

  column(name: string, order: Order, length: number, low: number, high: number): Int32Array {
    const found = readNumbers(this.#get(name), order, length);
    if (found?.every((each) => each >= low && each <= high)) return found;
    throw this.#wrong(name, `${length} packed numbers from ${low} to ${high}`);
  }
}
