/** More pieces than this in one order is a mistake, not an order. */
export const MOST_PIECES = 40;
