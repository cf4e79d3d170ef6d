/** Runs a generator to its end in one go. */
export function runThrough<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}
