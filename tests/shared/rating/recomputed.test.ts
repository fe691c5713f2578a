import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { rateCardSchema, toRateBook } from '#config/schema/rate-card.ts';
import { knownPlaces } from '#config/zones/known-places.ts';
import { quote } from '#shared/rating/quote.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import type { Place } from '#shared/rating/rate-card.ts';
import type { Route } from '#shared/rating/types.ts';
import { parseMass } from '#shared/units/mass.ts';
import type { NaiveParcel, NaiveRoute } from '#tests/support/naive-rates.ts';
import { naivePrices } from '#tests/support/naive-rates.ts';
import { randomCard, randomDestination } from '#tests/support/random-cards.ts';
import {
  centimetres,
  grams,
  inches,
  ounces,
  pounds,
  randomParcel,
  ratedParcel,
} from '#tests/support/random-parcels.ts';
import { runs } from '#tests/support/runs.ts';

// Thousands of cases in exact fractions take seconds; a busy machine needs longer.
const PATIENT = { timeout: 120_000 };

const raw = (path: string): unknown => parse(readFileSync(new URL(`../../../config/${path}`, import.meta.url), 'utf8'));
const bookOf = (cards: readonly unknown[]): RateBook => toRateBook(cards.map((card) => rateCardSchema.parse(card)));

interface Case {
  readonly cards: readonly unknown[];
  readonly book: RateBook;
  readonly parcel: NaiveParcel;
  readonly naiveRoute: NaiveRoute;
  readonly route: Route;
  readonly day: string;
}

function expectSame({ cards, book, parcel, naiveRoute, route, day }: Case): number {
  const { offers } = quote(book, ratedParcel(parcel), parseMass(parcel.mass), route, day);
  const got = Object.fromEntries(
    offers.map((offer) => [offer.service, { minor: offer.price.minor, tier: offer.cubicTier }]),
  );
  const expected = Object.fromEntries(naivePrices(cards, parcel, naiveRoute, day));
  expect(got).toEqual(expected);
  return offers.length;
}

/** Each test must have priced something, or it would prove nothing. */
function expectManyOffers(count: number, runs: number): void {
  expect(count).toBeGreaterThan(runs / 4);
}

/** By the angle between two vectors from the Earth's centre, not by the haversine formula. */
function miles(from: Place, to: Place): number {
  const vector = ({ latitude, longitude }: Place): [number, number, number] => {
    const [phi, lambda] = [(latitude * Math.PI) / 180, (longitude * Math.PI) / 180];
    return [Math.cos(phi) * Math.cos(lambda), Math.cos(phi) * Math.sin(lambda), Math.sin(phi)];
  };
  const [a, b] = [vector(from), vector(to)];
  const cross = Math.hypot(a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]);
  return 3958.7613 * Math.atan2(cross, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]);
}

test('the demo shop prices 10,000 random parcels as the naive re-computation does', PATIENT, () => {
  const cards = [raw('rate-cards/merrow-post.yaml'), raw('rate-cards/overfield-ground.yaml')];
  const book = bookOf(cards);
  const packaging = ['merrow-card-flat', 'merrow-padded-flat', 'merrow-large-flat'].map((container) => ({
    container,
    containerOwner: 'merrow-post',
  }));
  const from = { country: 'US', postcode: '55802' };
  const postcodes = [
    '55802',
    '55811',
    '55401',
    '60601',
    '64101',
    '80202',
    '90001',
    '98101',
    '33101',
    '04101',
    '96813',
    '99501',
    '10001',
  ];
  let offers = 0;
  fc.assert(
    fc.property(
      randomParcel(inches, fc.oneof(ounces, pounds), packaging),
      fc.constantFrom(...postcodes),
      fc.constantFrom('2026-01-10', '2026-07-11', '2026-07-12', '2026-11-25', '2026-12-24'),
      (parcel, postcode, day) => {
        const to = { country: 'US', postcode };
        const naiveRoute = { to, miles: miles(knownPlaces(from)!, knownPlaces(to)!) };
        offers += expectSame({ cards, book, parcel, naiveRoute, route: { from, to }, day });
      },
    ),
    { numRuns: runs(10_000) },
  );
  expectManyOffers(offers, runs(10_000));
});

test('the metric demo shop prices 10,000 random parcels as the naive re-computation does', PATIENT, () => {
  const cards = [raw('demo-metric/rate-cards/varnholm-post.yaml')];
  const book = bookOf(cards);
  const from = { country: 'XA', postcode: '1000' };
  let offers = 0;
  fc.assert(
    fc.property(randomParcel(centimetres, grams, []), randomDestination, (parcel, to) => {
      offers += expectSame({ cards, book, parcel, naiveRoute: { to }, route: { from, to }, day: '2026-11-25' });
    }),
    { numRuns: runs(10_000) },
  );
  expectManyOffers(offers, runs(10_000));
});

test('10,000 random parcels on 1,000 random cards are priced as the naive re-computation does', PATIENT, () => {
  const packaging = [
    { container: 'own-card', containerOwner: 'random', containerType: 'card' },
    { container: 'plain' },
    { containerType: 'pouch' },
  ];
  const from = { country: 'XA', postcode: '1000' };
  const parcels = fc.array(
    fc.record({
      parcel: randomParcel(fc.oneof(inches, centimetres), fc.oneof(ounces, pounds, grams), packaging),
      to: randomDestination,
      day: fc.constantFrom('2026-02-01', '2026-06-30', '2026-07-01', '2026-12-31'),
    }),
    { minLength: 10, maxLength: 10 },
  );
  let offers = 0;
  fc.assert(
    fc.property(randomCard, parcels, (card, list) => {
      const book = bookOf([card]);
      for (const { parcel, to, day } of list) {
        const route = { from, to: { ...to, residential: parcel.residential === true } };
        offers += expectSame({ cards: [card], book, parcel, naiveRoute: { to }, route, day });
      }
    }),
    { numRuns: runs(1000) },
  );
  expectManyOffers(offers, 10 * runs(1000));
});
