import { inRange } from '../../units/index.ts';

/**
 * Chance that chi-square with so many degrees of freedom comes out above a value: the regularised upper
 * incomplete gamma function Q(df / 2, x / 2), by its series below df / 2 + 1 and its continued fraction
 * (modified Lentz) above.
 * @param value  0 or more
 * @param df     whole, 1..10,000
 * @accuracy about 1e-12
 * @source W. H. Press et al., Numerical Recipes, 3rd ed. (2007), section 6.2, from memory
 */
export function chiSquareAbove(value: number, df: number): number {
  if (!Number.isInteger(df)) throw new RangeError(`df (${df}) must be whole`);
  const a = inRange('df', df, 1, 10_000) / 2;
  const x = inRange('value', value, 0, Number.MAX_VALUE) / 2;
  if (x === 0) return 1;
  const scale = Math.exp(a * Math.log(x) - x - logGammaOfHalves(df));
  return x < a + 1 ? 1 - scale * series(a, x) : scale * fraction(a, x);
}

/** ln of gamma(df / 2), by gamma(z + 1) = z gamma(z) down to gamma(1) or gamma(1/2). */
function logGammaOfHalves(df: number): number {
  let sum = df % 2 === 0 ? 0 : Math.log(Math.PI) / 2;
  for (let z = df / 2 - 1; z > 0; z -= 1) sum += Math.log(z);
  return sum;
}

const CLOSE = 1e-15;
const TINY = 1e-300;

function series(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; Math.abs(term) > CLOSE * sum; n += 1) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

function fraction(a: number, x: number): number {
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let h = d;
  for (let i = 1; ; i += 1) {
    const an = -i * (i - a);
    b += 2;
    d = 1 / nonZero(an * d + b);
    c = nonZero(b + an / c);
    const step = d * c;
    h *= step;
    if (Math.abs(step - 1) < CLOSE * 10 || i > 100_000) return h;
  }
}

const nonZero = (value: number): number => (Math.abs(value) < TINY ? TINY : value);
