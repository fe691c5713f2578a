/** How the time of a task falls with repetition: T(n) = first * n^exponent, fitted to what was measured. */
export interface LearningCurve {
  /** time of the first unit, as the curve has it */
  readonly first: number;
  /** below 0 when it gets quicker */
  readonly exponent: number;
  /** what is left of the time each time the count doubles: 2^exponent */
  readonly rate: number;
  /** how much of the spread of the logarithms the curve explains, 0 to 1 */
  readonly explained: number;
}

/** Fewer say nothing of a curve. */
export const LEAST_TIMES = 4;

/**
 * Fits the power law of practice by least squares on logarithms: log T = log first + exponent log n.
 * @param times of the first, second, third ... unit; positive. Null with fewer than {@link LEAST_TIMES}.
 */
export function fitLearningCurve(times: readonly number[]): LearningCurve | null {
  if (times.length < LEAST_TIMES || times.some((time) => !(time > 0))) return null;
  const points = times.map((time, index) => ({ x: Math.log(index + 1), y: Math.log(time) }));
  const mean = (of: (point: (typeof points)[number]) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const [mx, my] = [mean(({ x }) => x), mean(({ y }) => y)];
  const sxx = mean(({ x }) => (x - mx) ** 2);
  const sxy = mean(({ x, y }) => (x - mx) * (y - my));
  const syy = mean(({ y }) => (y - my) ** 2);
  const exponent = sxy / sxx;
  const explained = syy < 1e-12 ? 1 : Math.min(1, (exponent * sxy) / syy);
  return { first: Math.exp(my - exponent * mx), exponent, rate: 2 ** exponent, explained };
}

/** The time of the nth unit, counted from 1, on a curve. */
export function timeOf({ first, exponent }: Pick<LearningCurve, 'first' | 'exponent'>, n: number): number {
  return first * n ** exponent;
}
