import type { Model } from './model.ts';

/**
 * Draws random lists, each activity after those it waits for; those with more work behind them are likelier
 * to come early. Only for plain projects.
 */
export class ListSampler {
  readonly #model: Model;
  readonly #random: () => number;
  readonly #after: readonly (readonly number[])[];
  readonly #waitsFor: Int32Array;
  readonly #waiting: Int32Array;
  readonly #ready: number[] = [];
  readonly #weights: number[] = [];

  constructor(model: Model, random: () => number) {
    const after: number[][] = Array.from({ length: model.count }, () => []);
    this.#waitsFor = new Int32Array(model.count);
    for (let k = 0; k < model.minLag.length; k += 1) {
      after[model.lagFrom[k]!]!.push(model.lagTo[k]!);
      this.#waitsFor[model.lagTo[k]!]! += 1;
    }
    this.#after = after;
    this.#waiting = new Int32Array(model.count);
    this.#model = model;
    this.#random = random;
  }

  draw(into: Int32Array): void {
    const ready = this.#ready;
    const waiting = this.#waiting;
    waiting.set(this.#waitsFor);
    ready.length = 0;
    for (let i = 0; i < into.length; i += 1) if (waiting[i] === 0) ready.push(i);
    for (let n = 0; n < into.length; n += 1) {
      const place = this.#pick();
      const j = ready[place]!;
      ready[place] = ready[ready.length - 1]!;
      ready.length -= 1;
      into[n] = j;
      for (const next of this.#after[j]!) {
        waiting[next]! -= 1;
        if (waiting[next] === 0) ready.push(next);
      }
    }
  }

  /** By the square root of how much more lies behind an activity's end than behind the least of the ready. */
  #pick(): number {
    const { tail, duration } = this.#model;
    const ready = this.#ready;
    const weights = this.#weights;
    let least = Number.POSITIVE_INFINITY;
    for (const j of ready) least = Math.min(least, tail[j]! - duration[j]!);
    let sum = 0;
    for (let n = 0; n < ready.length; n += 1) {
      const j = ready[n]!;
      weights[n] = Math.sqrt(tail[j]! - duration[j]! - least + 1);
      sum += weights[n]!;
    }
    let draw = this.#random() * sum;
    let place = 0;
    while (place < ready.length - 1 && draw >= weights[place]!) {
      draw -= weights[place]!;
      place += 1;
    }
    return place;
  }
}
