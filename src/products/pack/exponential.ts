/**
 * e to the power of x, by sums and products alone. Math.exp may differ in its last digit from one
 * browser to the next; the four basic operations may not, and a phone must add up as the server does.
 * @param x  -30..30
 * @accuracy within 1e-12 of its value (tests/laws/clock-pack.test.ts)
 */
export function expExact(x: number): number {
  // Near nothing left, the digits of 1 + s would be lost: below 0 the reciprocal is taken.
  if (x < 0) return 1 / expExact(-x);
  const halvings = 16;
  const small = x / 65_536;
  let term = 1;
  let sum = 0;
  // exp(small) - 1: eight terms are plenty for |small| below 0.011.
  for (let n = 1; n <= 8; n += 1) {
    term *= small / n;
    sum += term;
  }
  // (1 + s)^2 - 1 = 2 s + s^2, which keeps the digits that 1 + s would lose.
  for (let n = 0; n < halvings; n += 1) sum = 2 * sum + sum * sum;
  return 1 + sum;
}
