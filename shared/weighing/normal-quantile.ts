import { normalBelow } from './normal.ts';

/** Where the bisection begins; P(X > 9) is about 1e-19. */
const FARTHEST = 9;

/** A hundred steps for the few levels that a shop asks for again and again. */
const REMEMBERED = 20;
const known = new Map<number, number>();

/**
 * The z below which a standard normal lies with a probability. Bisection of {@link normalBelow}, so the two always agree.
 * @param probability above 0 and below 1
 * @throws RangeError outside
 */
export function normalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`normalQuantile: expected a probability between 0 and 1, found ${String(probability)}`);
  }
  const before = known.get(probability);
  if (before !== undefined) return before;
  let [low, high] = [-FARTHEST, FARTHEST];
  for (let step = 0; step < 100; step++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < probability) low = middle;
    else high = middle;
  }
  if (known.size >= REMEMBERED) known.clear();
  known.set(probability, (low + high) / 2);
  return (low + high) / 2;
}
