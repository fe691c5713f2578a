import fc from 'fast-check';
import { expect, test } from 'vitest';
import { reasonWords } from '#shared/rating/explain.ts';
import type { NextEdge } from '#shared/rating/next-edges.ts';
import { nextEdges } from '#shared/rating/next-edges.ts';
import { quote } from '#shared/rating/quote.ts';
import type { RatedParcel, Route } from '#shared/rating/types.ts';
import type { Length } from '#shared/units/length.ts';
import { lengthFromBase, parseLength } from '#shared/units/length.ts';
import type { Mass } from '#shared/units/mass.ts';
import { massFromBase, parseMass } from '#shared/units/mass.ts';
import { bookWith, box, demoBook, soft } from '#tests/support/rate-book.ts';
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

/** A service of two brackets and what is written beside them; sides may be up to 18 in. */
const plain = (
  rest = 'limits: [{ limit: longest-side, most: 18 in }, { limit: smallest-size, least: [6 in, 3 in, 0.25 in] }]',
) =>
  bookWith(
    `  - id: s
    name: { en: S, es: S }
    prices: [{ rule: weight-bracket, brackets: [{ upTo: 1 lb, prices: 5.00 }, { upTo: 20 lb, prices: 10.00 }] }]
    surcharges: [{ id: long, name: { en: Long, es: Largo }, when: [{ when: longest-side, over: 12 in }], amount: { kind: amount, price: 2.50 } }]
    ${rest}`,
    '[{ by: flat, zone: home, countries: [XA] }]',
  );
const told = (parcel: RatedParcel, mass = '2 lb', of = plain(), service = 's', route: Route = { zone: 'home' }) =>
  nextEdges(of, service, parcel, parseMass(mass), route, DAY).map(
    ({ leads, along, price, reason }) =>
      `${leads} ${along} ${price === null ? '-' : String(price.minor)}: ${reasonWords(reason, 'en')}`,
  );

test('every edge of a parcel is told with where it leads', () => {
  expect(told(box('10 x 8 x 4 in'))).toEqual([
    'cheaper mass 500: 1 lb lighter would cost $5.00',
    'refused mass -: More than 18 lb heavier and this service refuses it',
    'dearer first-side 1250: More than 2 in added to the first side costs $12.50',
    'dearer second-side 1250: More than 4 in added to the second side costs $12.50',
    'dearer third-side 1250: More than 8 in added to the third side costs $12.50',
  ]);
  expect(told(box('13 x 8 x 4 in'), '1 lb')).toEqual([
    'dearer mass 1250: Any heavier costs $12.50',
    'cheaper first-side 500: 1 in less on the first side would cost $5.00',
    'refused first-side -: More than 5 in added to the first side and this service refuses it',
    'refused second-side -: More than 10 in added to the second side and this service refuses it',
    'refused third-side -: More than 14 in added to the third side and this service refuses it',
  ]);
  expect(told(box('18 x 12 x 12 in'), '20 lb')).toEqual([
    'cheaper mass 750: 19 lb lighter would cost $7.50',
    'refused mass -: Any heavier and this service refuses it',
    'cheaper first-side 1000: 6 in less on the first side would cost $10.00',
    'refused first-side -: Anything added to the first side and this service refuses it',
    'refused second-side -: More than 6 in added to the second side and this service refuses it',
    'refused third-side -: More than 6 in added to the third side and this service refuses it',
  ]);
  expect(told(box('12 x 12 x 4 in'), '0.5 lb').slice(1, 3)).toEqual([
    'dearer first-side 750: Anything added to the first side costs $7.50',
    'dearer second-side 750: Anything added to the second side costs $7.50',
  ]);
});

test('a soft pack has a length, a width and a thickness where it is known, a roll a length and a diameter', () => {
  const along = (parcel: RatedParcel) => told(parcel, '20 lb').slice(2);
  const widths = [
    'dearer length 1250: Anything added to the length costs $12.50',
    'dearer width 1250: More than 3 in added to the width costs $12.50',
  ];
  expect(along(soft('12 x 9 in'))).toEqual(widths);
  expect(along(soft('12 x 9 x 1 in'))).toEqual([
    ...widths,
    'dearer thickness 1250: More than 11 in added to the thickness costs $12.50',
  ]);
  const shape = { form: 'roll', length: parseLength('15 in'), diameter: parseLength('4 in') } as const;
  expect(along({ shape })).toEqual([
    'cheaper length 1000: 3 in less on the length would cost $10.00',
    'refused length -: More than 3 in added to the length and this service refuses it',
    'refused diameter -: More than 14 in added to the diameter and this service refuses it',
  ]);
});

test('without a limit of size nothing is refused for its sides; a least mass is told only where no price is below', () => {
  const least = plain('limits: [{ limit: smallest-mass, least: 0.25 lb }]');
  expect(told(box('13 x 8 x 4 in'), '0.5 lb', least)).toEqual([
    'too-light mass -: More than 0.25 lb lighter and this service refuses it',
    'dearer mass 1250: More than 0.5 lb heavier costs $12.50',
    'cheaper first-side 500: 1 in less on the first side would cost $5.00',
  ]);
  expect(told(box('13 x 8 x 4 in'), '2 lb', least).filter((edge) => edge.includes('mass'))).toEqual([
    'cheaper mass 750: 1 lb lighter would cost $7.50',
    'refused mass -: More than 18 lb heavier and this service refuses it',
  ]);
});

test('there are no edges of what is not taken as it is: by size, mass, place or name', () => {
  const fine = box('10 x 8 x 4 in');
  expect(told(box('5 x 4 x 1 in'))).toEqual([]);
  expect(told(box('19 x 8 x 4 in'))).toEqual([]);
  expect(told(fine, '21 lb')).toEqual([]);
  expect(told(fine, '2 lb', plain(), 'other')).toEqual([]);
  const abroad = { from: { postcode: '1', country: 'XA' }, to: { postcode: '1', country: 'XB' } };
  expect(told(fine, '2 lb', plain(), 's', abroad)).toEqual([]);
  expect(() => told(fine, '0 lb')).toThrow(/mass: expected more than nothing/);
});
