/** How long an order takes at one bench, in seconds. */
export interface Pace {
  readonly mean: number;
  readonly sd: number;
  /** how many orders it was seen on */
  readonly orders: number;
}

/** Before anything was packed: a practised packer's order of a piece or two. Common practice, no source. */
const GUESS = { mean: 240, sd: 120 };
/** The guess counts like so many orders that were seen. */
const GUESS_ORDERS = 5;

/** The pace from the seconds that the last orders took, the guess at first. A break in the middle of one counts like the longest other. */
export function paceOf(seconds: readonly number[]): Pace {
  const sorted = [...seconds].sort((a, b) => a - b);
  // Winsorised at the 90th percentile: an order left lying over lunch says nothing of the pace.
  const most = sorted[Math.floor((sorted.length - 1) * 0.9)] ?? 0;
  const seen = sorted.map((each) => Math.min(each, most));
  const orders = seen.length;
  const mean = (seen.reduce((sum, each) => sum + each, 0) + GUESS.mean * GUESS_ORDERS) / (orders + GUESS_ORDERS);
  const squares = seen.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  const guessed = GUESS_ORDERS * (GUESS.sd ** 2 + (GUESS.mean - mean) ** 2);
  return { mean, sd: Math.sqrt((squares + guessed) / (orders + GUESS_ORDERS)), orders };
}
