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

/** Beyond so many standard deviations a thing is certain: the chance of the contrary is one in a thousand million. */
export const CERTAIN = 6;

/** A margin in standard deviations; infinite where nothing is spread. */
export function scoreOf(margin: number, sd: number): number {
  if (sd > 0) return margin / sd;
  return margin >= 0 ? Infinity : -Infinity;
}

/** Probability that a margin of so many standard deviations is not negative. */
export function probabilityOf(score: number): number {
  if (score >= CERTAIN) return 1;
  return score <= -CERTAIN ? 0 : normalBelow(score);
}
