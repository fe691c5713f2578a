import fc from 'fast-check';
import { expect, test } from 'vitest';
import { NO_PRICE } from '#shared/rating/price.ts';
import { pricer } from '#shared/rating/pricer.ts';
import { quote } from '#shared/rating/quote.ts';
import { parseMass } from '#shared/units/mass.ts';
import { box, demoBook } from '#tests/support/rate-book.ts';
import { inches, ounces, randomParcel, ratedParcel } from '#tests/support/random-parcels.ts';

const DAY = '2026-11-25';
const book = demoBook();

test('bare prices are those of the quote', () => {
  const route = { from: { postcode: '55802', country: 'US' }, to: { postcode: '60601', country: 'US' } };
  const prices = pricer(book, route, DAY);
  fc.assert(
    fc.property(
      randomParcel(inches, ounces, [{ container: 'merrow-card-flat', containerOwner: 'merrow-post' }]),
      (naive) => {
        const parcel = ratedParcel(naive);
        const mass = parseMass(naive.mass);
        const priced = prices.parcel(parcel);
        const bare = prices.services.map((service, place) => [service, priced.at(place, mass)] as const);
        const quoted = quote(book, parcel, mass, route, DAY).offers.map(
          (offer) => [offer.service, offer.price.minor] as const,
        );
        expect(new Map(bare.filter(([, price]) => price !== NO_PRICE))).toEqual(new Map(quoted));
      },
    ),
  );
});

test('a route without a zone has no services', () => {
  const route = { from: { postcode: '55802', country: 'US' }, to: { postcode: '00000', country: 'US' } };
  const prices = pricer(book, route, DAY);
  expect(prices.services).toEqual([]);
  expect(prices.parcel(box('10 x 8 x 2 in')).at(0, parseMass('1 lb'))).toBe(NO_PRICE);
});
