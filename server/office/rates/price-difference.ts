import { sentParcels } from './sent-parcels.ts';
import type { Store } from '#server/store/open.ts';
import { allOrders } from '#server/store/orders.ts';
import { allParcels } from '#server/store/parcels.ts';
import { compareCards } from '#shared/rating/compare-cards.ts';
import { costOfChange } from '#shared/rating/cost-of-change.ts';
import { bookInForce } from '#shared/rating/in-force.ts';
import type { RateBook, RateCard } from '#shared/rating/rate-card.ts';
import type { Day } from '#shared/rating/types.ts';
import type { Shop } from '#shared/shop/shop.ts';
import type { PriceDifference } from '#shared/wire/rates.ts';

export interface DifferenceParts {
  readonly store: Store;
  readonly shop: Shop;
  /** milliseconds since the epoch */
  readonly now: number;
}

/** The card of a service on a day, in the book that it stands in. */
export interface PricesOnDay {
  readonly book: RateBook;
  readonly card: RateCard;
  readonly day: Day;
}

const SENT_WITHIN_MS = 30 * 86_400_000;

/** What changes for a service from one card to another, and what that means for its parcels of the last 30 days. */
export async function priceDifference(
  { store, shop, now }: DifferenceParts,
  service: string,
  before: PricesOnDay,
  after: PricesOnDay,
): Promise<PriceDifference> {
  const only = ({ card }: PricesOnDay): RateCard => ({
    ...card,
    services: card.services.filter(({ id }) => id === service),
  });
  const { otherRule, changes, unchanged } = compareCards(only(before), before.day, only(after), after.day);
  const orders = new Map((await allOrders(store)).map((stored) => [stored.order.id, stored]));
  const recent = (await allParcels(store)).filter(
    (parcel) => parcel.finishedAt >= now - SENT_WITHIN_MS && parcel.service === service,
  );
  const cost = costOfChange(before, after, sentParcels(recent, orders, shop));
  const { parcels, cheapestBefore, cheapestAfter, left } = cost;
  return {
    before: before.day,
    after: after.day,
    otherRule: otherRule.length > 0,
    changes: changes.map(({ row, zone, before: old, after: made }) => ({ row, zone, before: old, after: made })),
    unchanged,
    sent: { parcels, before: cost.before, after: cost.after, cheapestBefore, cheapestAfter, left },
  };
}

/**
 * What changes for a service between two days; the day on which no card sells it where there is one.
 * @throws RatingError bad-day
 */
export async function differenceOfDays(
  parts: DifferenceParts,
  service: string,
  before: Day,
  after: Day,
): Promise<PriceDifference | { readonly notOn: Day }> {
  const book = parts.shop.rates;
  const on = (day: Day): PricesOnDay | null => {
    const found = bookInForce(book, day).services.find((each) => each.service.id === service);
    return found === undefined ? null : { book, card: found.card, day };
  };
  const [left, right] = [on(before), on(after)];
  if (left === null) return { notOn: before };
  return right === null ? { notOn: after } : priceDifference(parts, service, left, right);
}
