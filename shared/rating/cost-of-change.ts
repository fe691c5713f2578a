import type { Mass } from '#shared/units/mass.ts';
import { quote } from './quote.ts';
import type { RateBook } from './rate-card.ts';
import type { Day, RatedParcel, Route } from './types.ts';

/** A parcel as it went. */
export interface SentParcel {
  readonly service: string;
  readonly parcel: RatedParcel;
  readonly mass: Mass;
  readonly route: Route;
}

export interface CostOfChange {
  readonly currency: string;
  /** parcels that both books take by the service that they went by, and what those come to in minor units */
  readonly parcels: number;
  readonly before: number;
  readonly after: number;
  /** by service, the same */
  readonly byService: readonly {
    readonly service: string;
    readonly parcels: number;
    readonly before: number;
    readonly after: number;
  }[];
  /** what the same parcels cost each by the cheapest service of each book */
  readonly cheapestBefore: number;
  readonly cheapestAfter: number;
  /** parcels that one of the books does not take by that service */
  readonly left: number;
}

interface Pricing {
  readonly book: RateBook;
  readonly day: Day;
}

/** What a change of prices means for parcels that were sent: each priced on both books. */
export function costOfChange(before: Pricing, after: Pricing, sent: readonly SentParcel[]): CostOfChange {
  const services = new Map<string, { service: string; parcels: number; before: number; after: number }>();
  const total = { parcels: 0, before: 0, after: 0, cheapestBefore: 0, cheapestAfter: 0, left: 0 };
  for (const each of sent) {
    const old = pricesOf(before, each);
    const fresh = pricesOf(after, each);
    if (old.own === null || fresh.own === null) {
      total.left += 1;
      continue;
    }
    const entry = services.get(each.service) ?? { service: each.service, parcels: 0, before: 0, after: 0 };
    services.set(each.service, entry);
    for (const sum of [entry, total]) {
      sum.parcels += 1;
      sum.before += old.own;
      sum.after += fresh.own;
    }
    total.cheapestBefore += old.cheapest;
    total.cheapestAfter += fresh.cheapest;
  }
  const currency = after.book.cards[0]?.currency ?? '';
  return { currency, ...total, byService: [...services.values()] };
}

function pricesOf(
  { book, day }: Pricing,
  sent: SentParcel,
): { readonly own: number | null; readonly cheapest: number } {
  const { offers } = quote(book, sent.parcel, sent.mass, sent.route, day);
  const own = offers.find((offer) => offer.service === sent.service);
  return { own: own?.price.minor ?? null, cheapest: offers[0]?.price.minor ?? 0 };
}
