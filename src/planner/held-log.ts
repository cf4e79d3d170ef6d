/** What held the crew up, for how long, and when first: the longest is what decided the day. */
export class HeldLog<Cause extends string> {
  readonly #held = new Map<Cause, { ms: number; firstMs: number }>();

  note(cause: Cause, atMs: number, ms: number): void {
    const held = this.#held.get(cause);
    if (held === undefined) this.#held.set(cause, { ms, firstMs: atMs });
    else held.ms += ms;
  }

  /** @param otherwise  what decided it where nothing held the crew up */
  main(otherwise: Cause, nowMs: number): { cause: Cause; ms: number } {
    let found = { cause: otherwise, ms: nowMs };
    let most = 0;
    for (const [cause, { ms, firstMs }] of this.#held) {
      if (ms > most) [found, most] = [{ cause, ms: firstMs }, ms];
    }
    return found;
  }
}
