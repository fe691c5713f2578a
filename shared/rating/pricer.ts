import type { Mass } from '#shared/units/mass.ts';
import { endOf } from './destinations.ts';
import { bookInForce } from './in-force.ts';
import type { ServiceInForce } from './in-force.ts';
import { checkMass, measure } from './measures.ts';
import type { Circumstances } from './adjust.ts';
import type { Settled } from './price.ts';
import { NO_PRICE, obstacle, priceAt, settle } from './price.ts';
import type { RateBook } from './rate-card.ts';
import type { Day, RatedParcel, Route } from './types.ts';
import { zoneOf } from './zones.ts';

/** Bare prices for many parcels on one route and day: no reasons, no money objects. */
export interface Pricer {
  /** ids of the services that have a zone for the route; their places are the places of the prices */
  readonly services: readonly string[];
  /** settles a parcel on every service. @throws RatingError bad-size */
  readonly parcel: (parcel: RatedParcel) => ParcelPrices;
}

export interface ParcelPrices {
  /** minor units of the service at a place, or NO_PRICE where it refuses the parcel or the mass */
  readonly at: (place: number, mass: Mass) => number;
}

interface Zoned {
  readonly service: ServiceInForce;
  readonly zone: string;
}

/** @throws RatingError bad-day */
export function pricer(book: RateBook, route: Route, day: Day): Pricer {
  const to = endOf(route);
  const zoned: Zoned[] = [];
  for (const service of bookInForce(book, day).services) {
    const { zone } = zoneOf(service.card, route, day, book.places);
    if (zone !== null) zoned.push({ service, zone });
  }
  return {
    services: zoned.map(({ service }) => service.service.id),
    parcel: (parcel) => {
      const measures = measure(parcel);
      const settled: (Settled | null)[] = [];
      let at: Circumstances | undefined;
      for (const { service, zone } of zoned) {
        if (obstacle(service, parcel, measures, zone, to) !== null) {
          settled.push(null);
          continue;
        }
        // Services of one card share a zone, so most of them share this.
        if (at?.zone !== zone) at = { measures, zone, to };
        settled.push(settle(service, parcel, at));
      }
      return {
        at: (place, mass) => {
          checkMass(mass);
          const one = settled[place];
          return one === undefined || one === null ? NO_PRICE : priceAt(one, mass);
        },
      };
    },
  };
}
