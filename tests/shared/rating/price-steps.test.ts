import fc from 'fast-check';
import { expect, test } from 'vitest';
import { priceSteps } from '#shared/rating/price-steps.ts';
import { quote } from '#shared/rating/quote.ts';
import type { RatedParcel } from '#shared/rating/types.ts';
import { lengthFromBase } from '#shared/units/length.ts';
import type { MassUnit } from '#shared/units/mass.ts';
import { MASS_UNITS, massFromBase, massFromDecimal, parseMass } from '#shared/units/mass.ts';
import { randomCard, randomDestination } from '#tests/support/random-cards.ts';
import { rateCardSchema, toRateBook, toRateCard } from '#config/schema/rate-card.ts';
import { box, demoBook, metricBook, soft } from '#tests/support/rate-book.ts';
import { runs } from '#tests/support/runs.ts';

const DAY = '2026-11-25';
const book = demoBook();
const metric = metricBook();
const side = fc.integer({ min: 1, max: 40 * 8 }).map((eighths) => lengthFromBase(eighths * 127_000));
const parcel: fc.Arbitrary<RatedParcel> = fc.oneof(
  fc.tuple(side, side, side).map((sides) => ({ shape: { form: 'box', sides } }) as const),
  fc
    .record({ length: side, width: side, thickness: side })
    .map((sides) => ({ shape: { form: 'soft', ...sides } }) as const),
  fc.record({ length: side, diameter: side }).map((sides) => ({ shape: { form: 'roll', ...sides } }) as const),
);
const mass = fc.integer({ min: 1, max: 400_000_000_000_000 }).map(massFromBase);
const zone = fc.integer({ min: 1, max: 8 }).map((number) => ({ zone: String(number) }));
const metricZone = fc.constantFrom({ zone: 'home' }, { zone: 'near' }, { zone: 'world' });
const shop = fc.oneof(
  zone.map((route) => ({ of: book, route })),
  metricZone.map((route) => ({ of: metric, route })),
);

test('a price never falls as the mass grows, and ceilings ascend', () => {
  fc.assert(
    fc.property(shop, parcel, ({ of, route }, shape) => {
      for (const { steps } of priceSteps(of, shape, route, DAY).steps) {
        for (const [index, step] of steps.entries()) {
          const before = steps[index - 1];
          if (before === undefined) continue;
          expect(step.ceiling).toBeGreaterThan(before.ceiling);
          expect(step.price.minor).toBeGreaterThan(before.price.minor);
        }
      }
    }),
  );
});

test('a quote is the step function at its mass', () => {
  fc.assert(
    fc.property(shop, parcel, mass, ({ of, route }, shape, heavy) => {
      const { steps } = priceSteps(of, shape, route, DAY);
      const { offers } = quote(of, shape, heavy, route, DAY);
      const expected = steps
        .map((service) => [service.service, service.steps.find((step) => heavy <= step.ceiling)?.price.minor] as const)
        .filter(([, price]) => price !== undefined);
      expect(new Map(offers.map((offer) => [offer.service, offer.price.minor]))).toEqual(new Map(expected));
    }),
  );
});

test('every ceiling belongs to its bracket and one unit more does not', () => {
  const { steps } = priceSteps(book, box('12 x 12 x 10 in'), { zone: '5' }, DAY);
  expect(steps.length).toBeGreaterThan(2);
  for (const service of steps) {
    for (const [index, step] of service.steps.entries()) {
      const at = (heavy: number) =>
        quote(book, box('12 x 12 x 10 in'), massFromBase(heavy), { zone: '5' }, DAY).offers.find(
          (offer) => offer.service === service.service,
        )?.price;
      expect(at(step.ceiling)).toEqual(step.price);
      expect(at(step.ceiling + 1)).toEqual(service.steps[index + 1]?.price);
    }
  }
});

test('the unit in which a mass was written does not change its price', () => {
  const price = (heavy: string) =>
    quote(book, soft('12 x 9 x 1 in'), parseMass(heavy), { zone: '3' }, DAY).offers.map(
      ({ service, price: { minor } }) => [service, minor],
    );
  expect(price('16 oz')).toEqual(price('1 lb'));
  expect(price('16 oz')).toEqual(price('453.5923 g'));
  expect(price('16.0001 oz')).not.toEqual(price('16 oz'));
  expect(price('453.5924 g')).not.toEqual(price('1 lb'));
});

test('a sum of small masses reaches the ceiling exactly', () => {
  // Ten times 0.1 oz is not 1 oz in binary fractions.
  let total = 0;
  for (let count = 0; count < 40; count++) total += massFromDecimal('0.1', 'oz');
  const offer = quote(book, soft('12 x 9 x 1 in'), massFromBase(total), { zone: '1' }, DAY).offers[0];
  expect(offer).toMatchObject({ service: 'light-parcel', bracketCeiling: massFromDecimal('4', 'oz') });
});

test('a parcel that grows is never cheaper, but for least sizes', () => {
  fc.assert(
    fc.property(shop, parcel, mass, fc.integer({ min: 0, max: 2 }), side, ({ of, route }, shape, heavy, which, by) => {
      const larger = grown(shape, which, by);
      const before = new Map(
        quote(of, shape, heavy, route, DAY).offers.map((offer) => [offer.service, offer.price.minor]),
      );
      const tooSmall = quote(of, shape, heavy, route, DAY).refused.filter(
        (refusal) => refusal.why.code === 'too-small',
      );
      for (const offer of quote(of, larger, heavy, route, DAY).offers) {
        if (tooSmall.some((refusal) => refusal.service === offer.service)) continue;
        expect(before.get(offer.service)).toBeLessThanOrEqual(offer.price.minor);
      }
    }),
  );
});

function grown(from: RatedParcel, which: number, by: number): RatedParcel {
  const { shape } = from;
  if (shape.form === 'box') {
    const [a, b, c] = shape.sides.map((each, place) => lengthFromBase(place === which ? each + by : each));
    return { shape: { form: 'box', sides: [a!, b!, c!] } };
  }
  if (shape.form === 'roll') {
    const name = which === 0 ? 'length' : 'diameter';
    return { shape: { ...shape, [name]: lengthFromBase(shape[name] + by) } };
  }
  const name = (['length', 'width', 'thickness'] as const)[which]!;
  return { shape: { ...shape, [name]: lengthFromBase(shape[name] + by) } };
}

/** The largest count of ten-thousandths of a unit that is not above a mass, as text. */
function upToIn(unit: MassUnit, ceiling: number): { readonly within: string; readonly beyond: string } {
  const step = massFromDecimal('0.0001', unit);
  const count = Math.floor(ceiling / step);
  const text = (ten: number) => `${String(Math.floor(ten / 10_000))}.${String(ten % 10_000).padStart(4, '0')} ${unit}`;
  return { within: text(count), beyond: text(count + 1) };
}

test('at every ceiling of both shops, in every unit, the last mass that fits pays its bracket and the next one does not', () => {
  let ceilings = 0;
  const shapes = [box('12 x 9 x 3 in'), soft('13 x 10 x 1 in'), box('30 x 20 x 10 cm')];
  for (const [of, route] of [
    [book, { zone: '4' }],
    [metric, { zone: 'home' }],
  ] as const) {
    for (const shape of shapes) {
      for (const { service, steps } of priceSteps(of, shape, route, DAY).steps) {
        const priceOf = (text: string) =>
          quote(of, shape, parseMass(text), route, DAY).offers.find((offer) => offer.service === service)?.price;
        for (const [index, { ceiling, price }] of steps.entries()) {
          for (const unit of MASS_UNITS) {
            const { within, beyond } = upToIn(unit, ceiling);
            expect(priceOf(within)).toEqual(price);
            expect(priceOf(beyond)).toEqual(steps[index + 1]?.price);
            ceilings += 1;
          }
        }
      }
    }
  }
  expect(ceilings).toBeGreaterThan(400);
});

test('on any card a price does not fall as the mass grows, but by a discount for the mass or the rounding of one', () => {
  let steps = 0;
  fc.assert(
    fc.property(randomCard, parcel, randomDestination, (card, shape, to) => {
      const cards = [rateCardSchema.parse(card)];
      const route = { from: { country: 'XA', postcode: '1000' }, to };
      for (const service of priceSteps(toRateBook(cards), shape, route, '2026-07-01').steps) {
        const { discounts } = toRateCard(cards[0]!).services.find(({ id }) => id === service.service)!;
        if (discounts.some(({ when }) => when.some((condition) => condition.when === 'mass'))) continue;
        // Each discount may be rounded up by less than its step where a cent more is reckoned.
        const slack = discounts.reduce(
          (sum, { amount }) => sum + (amount.kind === 'per-cent' ? 2 * amount.step : 0),
          0,
        );
        for (const [index, step] of service.steps.entries()) {
          const before = service.steps[index - 1];
          if (before === undefined) continue;
          steps += 1;
          expect(step.price.minor).toBeGreaterThanOrEqual(before.price.minor - slack);
        }
      }
    }),
    { numRuns: runs(400) },
  );
  expect(steps).toBeGreaterThan(runs(400) / 4);
});
