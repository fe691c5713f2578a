const TWO_OVER_ROOT_PI = 2 / Math.sqrt(Math.PI);
/** Where the series and the continued fraction both give full precision in few terms. */
const SERIES_UP_TO = 2.5;

/** Terms after which the continued fraction no longer changes in double precision: it converges as exp(-2 x sqrt(2 n)). */
function fractionTerms(x: number): number {
  return Math.ceil(200 / (x * x)) + 2;
}

/** Abramowitz and Stegun 7.1.6: erf x = 2/sqrt(pi) exp(-x^2) sum 2^n x^(2n+1) / (1 x 3 x ... x (2n+1)). */
function erfSeries(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return TWO_OVER_ROOT_PI * Math.exp(-x * x) * sum;
}

/** Abramowitz and Stegun 7.1.14: sqrt(pi) exp(x^2) erfc x = 1/(x + (1/2)/(x + 1/(x + (3/2)/(x + ...)))). */
function erfcFraction(x: number): number {
  let tail = x;
  for (let n = fractionTerms(x); n >= 1; n--) tail = x + n / 2 / tail;
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * tail);
}

/** Below this erfc is 2 in double precision. */
const CERTAIN = -6;

/** The complementary error function, good to about 1e-14 in itself and, in the upper tail, as a part of it. */
export function erfc(x: number): number {
  if (x < CERTAIN) return 2;
  if (x < 0) return 2 - erfc(-x);
  return x <= SERIES_UP_TO ? 1 - erfSeries(x) : erfcFraction(x);
}

/** P(X <= z) for a standard normal X. */
export function normalBelow(z: number): number {
  return erfc(-z / Math.SQRT2) / 2;
}

/** P(X > z) for a standard normal X, accurate far out in the tail too. */
export function normalAbove(z: number): number {
  return erfc(z / Math.SQRT2) / 2;
}

/** P(X > limit) for a normal X; with no spread, whether the mean itself lies above the limit. */
export function probabilityAbove(limit: number, mean: number, sd: number): number {
  if (sd <= 0) return mean > limit ? 1 : 0;
  return normalAbove((limit - mean) / sd);
}
