/**
 * Probability that a normal variable lies below `deviations` standard deviations above its mean.
 * Abramowitz and Stegun, "Handbook of Mathematical Functions" (1964), 7.1.26; absolute error below 1.5e-7.
 */
export function normalBelow(deviations: number): number {
  const x = Math.abs(deviations) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const sum = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const tail = (sum * Math.exp(-x * x)) / 2;
  return deviations > 0 ? 1 - tail : tail;
}

/** Probability that a margin, known to a standard deviation, is not negative; certain where nothing is spread. */
export function holds(margin: number, sd: number): number {
  if (sd > 0) return normalBelow(margin / sd);
  return margin >= 0 ? 1 : 0;
}
