import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { parse } from 'yaml';
import { rateCardSchema, toRateBook } from '#config/schema/rate-card.ts';
import { NO_PRICE } from '#shared/rating/price.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import { pricer } from '#shared/rating/pricer.ts';
import { quote } from '#shared/rating/quote.ts';
import { parseMass } from '#shared/units/mass.ts';
import { naivePrices } from '#tests/support/naive-rates.ts';
import { inches, ounces, randomParcel, ratedParcel } from '#tests/support/random-parcels.ts';
import type { Figure } from './figure.ts';
import { atLeast, atMost, plain } from './figure.ts';

const BENCH = 'rating';
const DAY = '2026-11-25';
const ROUTE = { zone: '6' };
const SEED = 20_261_125;

/** Runs whole rounds until the time is up; what a round returns is how much it did. */
function perSecond(round: () => number, seconds: number): number {
  round();
  const start = performance.now();
  let done = 0;
  while (performance.now() - start < seconds * 1000) done += round();
  return (done / (performance.now() - start)) * 1000;
}

/** How many prices a second the demo shop's cards give on one core, against the naive re-computation of the tests. */
export async function bench(): Promise<Figure[]> {
  const seconds = 2;
  const cards = ['merrow-post', 'overfield-ground'].map(
    (carrier) =>
      parse(readFileSync(new URL(`../../config/rate-cards/${carrier}.yaml`, import.meta.url), 'utf8')) as unknown,
  );
  const book = toRateBook(cards.map((card) => rateCardSchema.parse(card)));
  const naive = fc.sample(randomParcel(inches, ounces, []), { numRuns: 2000, seed: SEED });
  const parcels = naive.map((parcel) => ({ parcel: ratedParcel(parcel), mass: parseMass(parcel.mass) }));
  const route = pricer(book, ROUTE, DAY);
  const places = [...route.services.keys()];
  // Something must be done with the prices, or the work could be left out.
  let sum = 0;

  const fresh = perSecond(() => {
    for (const { parcel, mass } of parcels) {
      const prices = route.parcel(parcel);
      for (const place of places) sum += prices.at(place, mass);
    }
    return parcels.length * places.length;
  }, seconds);

  const settled = parcels.map(({ parcel }) => route.parcel(parcel));
  const byMass = perSecond(() => {
    for (const prices of settled) {
      for (const { mass } of parcels.slice(0, 20)) {
        for (const place of places) sum += prices.at(place, mass);
      }
    }
    return settled.length * 20 * places.length;
  }, seconds);

  const steps = perSecond(() => {
    for (const { parcel } of parcels.slice(0, 500)) sum += priceSteps(book, parcel, ROUTE, DAY).steps.length;
    return 500;
  }, seconds);

  const quotes = perSecond(() => {
    for (const { parcel, mass } of parcels.slice(0, 200)) sum += quote(book, parcel, mass, ROUTE, DAY).offers.length;
    return 200;
  }, seconds);

  const naivePerSecond = perSecond(() => {
    for (const parcel of naive.slice(0, 50)) {
      for (const price of naivePrices(cards, parcel, ROUTE, DAY).values()) sum += price.minor;
    }
    return 50 * places.length;
  }, seconds);

  const taken = settled.reduce(
    (count, prices, index) =>
      count + places.filter((place) => prices.at(place, parcels[index]!.mass) !== NO_PRICE).length,
    0,
  );
  if (sum === 0 || taken === 0) throw new Error('rating: nothing was priced');

  const against = 'naive re-computation of the tests, in exact fractions from the YAML';
  const parcelWords = `${String(parcels.length)} random parcels x ${String(places.length)} services, ${String(taken)} of them offers`;
  return Promise.resolve([
    atLeast({
      bench: BENCH,
      name: 'single-service prices, a new parcel each time',
      value: fresh,
      unit: 'prices/s',
      goal: 1_000_000,
      against: parcelWords,
    }),
    atMost({
      bench: BENCH,
      name: 'time of one price, a new parcel each time',
      value: 1e6 / fresh,
      unit: 'µs',
      goal: 1,
      against: parcelWords,
    }),
    plain({
      bench: BENCH,
      name: 'single-service prices at another mass',
      value: byMass,
      unit: 'prices/s',
      against: parcelWords,
    }),
    plain({
      bench: BENCH,
      name: 'price over mass of every service',
      value: steps,
      unit: 'parcels/s',
      against: parcelWords,
    }),
    plain({
      bench: BENCH,
      name: 'whole quotes with every reason',
      value: quotes,
      unit: 'quotes/s',
      against: parcelWords,
    }),
    plain({
      bench: BENCH,
      name: 'prices of the naive re-computation',
      value: naivePerSecond,
      unit: 'prices/s',
      against,
    }),
    plain({
      bench: BENCH,
      name: 'times faster than the naive re-computation',
      value: fresh / naivePerSecond,
      unit: 'x',
      against,
    }),
  ]);
}
