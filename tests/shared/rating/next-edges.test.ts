import fc from 'fast-check';
import { expect, test } from 'vitest';
import { reasonWords } from '#shared/rating/explain.ts';
import type { NextEdge } from '#shared/rating/next-edges.ts';
import { nextEdges } from '#shared/rating/next-edges.ts';
import { quote } from '#shared/rating/quote.ts';
import type { RatedParcel } from '#shared/rating/types.ts';
import type { Length } from '#shared/units/length.ts';
import { lengthFromBase } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import { massFromBase, parseMass } from '#shared/units/mass.ts';
import { demoBook, soft } from '#tests/support/rate-book.ts';
import { runs } from '#tests/support/runs.ts';

const DAY = '2026-11-25';
const book = demoBook();
const ROUTE = { zone: '6' };
const words = (edges: readonly NextEdge[]) => edges.map((edge) => reasonWords(edge.reason, 'en'));
const priceOf = (service: string, parcel: RatedParcel, mass: Mass) =>
  quote(book, parcel, mass, ROUTE, DAY).offers.find((offer) => offer.service === service)?.price ?? null;

test('a light parcel says how far the next bracket is on both sides', () => {
  expect(
    words(nextEdges(book, 'light-parcel', soft('12 x 9 x 1 in'), parseMass('8.3 oz'), ROUTE, DAY)).slice(0, 2),
  ).toEqual(['0.3 oz lighter would cost $4.65', 'More than 3.7 oz heavier costs $6.40']);
});

test('a soft pack says how much narrower the next tier begins', () => {
  const edges = nextEdges(book, 'cubic-soft', soft('15 x 12.25 x 1 in'), parseMass('2 lb'), ROUTE, DAY);
  // 15 + 12.25 is a quarter over the tier; anything below 12.25 counts as 12.
  expect(words(edges)).toContain('<0.001 in less on the width would cost $10.30');
});

test('a service that refuses the parcel has no edges', () => {
  expect(nextEdges(book, 'flat-card', soft('12 x 9 x 1 in'), parseMass('2 lb'), ROUTE, DAY)).toEqual([]);
  expect(nextEdges(book, 'light-parcel', soft('12 x 9 x 1 in'), parseMass('17 oz'), ROUTE, DAY)).toEqual([]);
});

const quarter = fc.integer({ min: 4, max: 120 }).map((count) => lengthFromBase(count * 254_000));
const parcels: fc.Arbitrary<RatedParcel> = fc.oneof(
  fc.tuple(quarter, quarter, quarter).map((sides) => ({ shape: { form: 'box', sides } as const })),
  fc
    .record({ length: quarter, width: quarter, thickness: quarter })
    .map((sides) => ({ shape: { form: 'soft', ...sides } as const })),
);

/** The parcel with one side changed by so many base units. */
function changed(parcel: RatedParcel, along: NextEdge['along'], by: number): RatedParcel {
  const { shape } = parcel;
  if (shape.form === 'box') {
    const index = ['first-side', 'second-side', 'third-side'].indexOf(along);
    const sides = shape.sides.map((side, place) => (place === index ? side + by : side));
    return { ...parcel, shape: { form: 'box', sides: sides as unknown as [Length, Length, Length] } };
  }
  if (shape.form === 'roll') {
    const name = along as 'length' | 'diameter';
    return { ...parcel, shape: { ...shape, [name]: shape[name] + by } };
  }
  const name = along as 'length' | 'width' | 'thickness';
  return { ...parcel, shape: { ...shape, [name]: shape[name] + by } };
}

test('an edge is exactly where the price changes', () => {
  const masses = fc.integer({ min: 1, max: 10_000_000_000_000 * 8 }).map(massFromBase);
  const services = fc.constantFrom('light-parcel', 'parcel-by-weight', 'cubic-carton', 'cubic-soft', 'ground');
  fc.assert(
    fc.property(services, parcels, masses, (service, parcel, mass) => {
      const now = priceOf(service, parcel, mass);
      for (const edge of nextEdges(book, service, parcel, mass, ROUTE, DAY)) {
        const at = (by: number) =>
          edge.along === 'mass'
            ? priceOf(service, parcel, massFromBase(mass + by))
            : priceOf(service, changed(parcel, edge.along, by), mass);
        if (edge.leads === 'too-light') {
          expect(at(-edge.by)).toEqual(now);
          expect(at(-edge.by - 1)).toBeNull();
        } else if (edge.leads === 'cheaper') {
          expect(at(-edge.by)).toEqual(edge.price);
          expect(edge.price!.minor).toBeLessThan(now!.minor);
          if (edge.by > 1) expect(at(-edge.by + 1)).toEqual(now);
        } else {
          expect(at(edge.by)).toEqual(now);
          expect(at(edge.by + 1)).toEqual(edge.price);
        }
      }
    }),
    { numRuns: runs(300) },
  );
});
