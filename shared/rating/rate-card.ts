/** Every rate card of the shop. */
export interface RateBook {
  readonly cards: readonly RateCard[];
}

/** A carrier's price list with its dates. */
export interface RateCard {
  readonly carrier: string;
}
