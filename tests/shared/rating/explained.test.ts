import { describe, expect, test } from 'vitest';
import { reasonWords } from '#shared/rating/explain.ts';
import { NO_PRICE } from '#shared/rating/price.ts';
import { priceSteps } from '#shared/rating/price-steps.ts';
import { pricer } from '#shared/rating/pricer.ts';
import { quote } from '#shared/rating/quote.ts';
import { routeKey } from '#shared/rating/route-zones.ts';
import type { RatedParcel, Route } from '#shared/rating/types.ts';
import { parseMass } from '#shared/units/mass.ts';
import { bookWith, box, soft } from '#tests/support/rate-book.ts';

const DAY = '2026-11-25';
const ZONE: Route = { zone: 'home' };
const book = (rest: string, zones = '[{ by: flat, zone: home }]') =>
  bookWith(
    `  - id: s
    name: { en: S, es: S }
${rest.replace(/^/gm, '    ')}`,
    zones,
  );
const LIMITS = 'limits: [{ limit: largest-mass, most: 70 lb }]';
const BRACKETS =
  'brackets: [{ upTo: 1 lb, prices: 5.00 }, { upTo: 2 lb, prices: 6.00 }, { upTo: 70 lb, prices: 20.00 }]';
const weights = (more = '') => book(`prices: [{ rule: weight-bracket, ${BRACKETS}${more} }]`);
const volumes = (more = '') =>
  weights(
    `, dimensional: [{ divisor: 100, length: in, mass: lb, sides: { mode: up, step: 1 in }, roundUpTo: 1 lb${more} }]`,
  );
const offer = (of: ReturnType<typeof book>, parcel: RatedParcel, mass: string) =>
  quote(of, parcel, parseMass(mass), ZONE, DAY).offers[0];
const why = (of: ReturnType<typeof book>, parcel: RatedParcel, mass = '1 lb') =>
  offer(of, parcel, mass)?.reasons.map((reason) => reasonWords(reason, 'en'));
const HEAD = ['Price list of Post, in force from 2026-01-01', 'Zone home, as given'];

describe('a price explains itself', () => {
  test('by weight: the bracket and the mass that is billed', () => {
    expect(why(weights(), box('10 x 8 x 2 in'), '1.5 lb')).toEqual([
      ...HEAD,
      '1.5 lb pays the bracket up to 2 lb: $6.00',
    ]);
  });
  test('from the day on which its rule, else its service, else its card began', () => {
    const from = (rest: string) => why(book(rest), box('10 x 8 x 2 in'))?.[0];
    expect(from(`prices: [{ rule: weight-bracket, from: 2026-03-01, ${BRACKETS} }]`)).toContain('from 2026-03-01');
    expect(from(`from: 2026-02-01\nprices: [{ rule: weight-bracket, ${BRACKETS} }]`)).toContain('from 2026-02-01');
  });
  test('by container', () => {
    const fees = book(
      `prices: [{ rule: flat-fee, fees: [{ container: a, prices: 4.00 }, { container: b, prices: 7.00 }] }]\n${LIMITS}`,
    );
    expect(why(fees, { ...box('10 x 8 x 2 in'), container: 'b' })).toEqual([...HEAD, 'Flat fee for b: $7.00']);
    const { refused } = quote(fees, box('10 x 8 x 2 in'), parseMass('1 lb'), ZONE, DAY);
    expect(reasonWords(refused[0]!.why, 'en')).toBe('Valid only in a, b');
  });
  test('by the volume of a carton and by the length and width of a soft pack, with the sides as they were rounded', () => {
    const cubic = (rule: string, tiers: string) =>
      book(`prices: [{ rule: ${rule}, sides: { mode: down, step: 0.25 in }, tiers: [${tiers}] }]\n${LIMITS}`);
    const cartons = cubic(
      'cubic-box',
      '{ tier: one, upTo: 0.1 ft3, prices: 8.00 }, { tier: two, upTo: 0.2 ft3, prices: 9.00 }',
    );
    // 12 x 9 x 3 in = 324 in3 = 0.1875 ft3.
    expect(why(cartons, box('3.1 x 12.2 x 9.2 in'))).toEqual([
      ...HEAD,
      'Each side down to a whole 1/4 in: 12 in × 9 in × 3 in',
      '0.1875 ft3 is cubic tier two (up to 0.2 ft3): $9.00',
    ]);
    const packs = cubic(
      'cubic-soft',
      '{ tier: one, upTo: 21 in, prices: 8.00 }, { tier: two, upTo: 27 in, prices: 9.00 }',
    );
    expect(why(packs, soft('9.2 x 12.3 x 1 in'))).toEqual([
      ...HEAD,
      'Each side down to a whole 1/4 in: 9 in × 12 1/4 in',
      'Length + width 21 1/4 in is cubic tier two (up to 27 in): $9.00',
    ]);
  });
  test('by volume where that counts as more than the scale, and says so where it does not', () => {
    // 10 x 10 x 1.5 in, up to 10 x 10 x 2 = 200 in3, / 100 = 2 lb.
    const parcel = box('10 x 10 x 1.5 in');
    const sides = 'Each side up to a whole 1 in: 10 in × 10 in × 2 in';
    expect(why(volumes(), parcel, '1.9 lb')).toEqual([
      ...HEAD,
      sides,
      'Volume / 100, up to the next 1 lb, is 2 lb: more than the 1.9 lb on the scale',
      '2 lb pays the bracket up to 2 lb: $6.00',
    ]);
    for (const [mass, bracket] of [
      ['2 lb', '2 lb pays the bracket up to 2 lb: $6.00'],
      ['2.5 lb', '2.5 lb pays the bracket up to 70 lb: $20.00'],
    ] as const) {
      expect(why(volumes(), parcel, mass)).toEqual([
        ...HEAD,
        sides,
        `Volume / 100, up to the next 1 lb, is 2 lb: not more than the ${mass} on the scale`,
        bracket,
      ]);
    }
    expect(why(volumes(', above: { volume: 1 ft3 }'), parcel)).toEqual([
      ...HEAD,
      'Not over 1 ft3: the scale decides',
      '1 lb pays the bracket up to 1 lb: $5.00',
    ]);
  });
});

describe('an offer', () => {
  const parcel = box('10 x 10 x 2 in');
  test('names what decides its price, the bracket and the price of the next one', () => {
    const said = (mass: string) => {
      const { rule, billedMass, bracketCeiling, nextPrice } = offer(volumes(), parcel, mass)!;
      return [rule, billedMass, bracketCeiling, nextPrice?.minor ?? null];
    };
    const [two, seventy] = [parseMass('2 lb'), parseMass('70 lb')];
    expect(said('1 lb')).toEqual(['dimensional', two, two, 2000]);
    expect(said('2 lb')).toEqual(['weight-bracket', two, two, 2000]);
    expect(said('3 lb')).toEqual(['weight-bracket', parseMass('3 lb'), seventy, null]);
    expect(offer(weights(), parcel, '0.5 lb')).toMatchObject({ rule: 'weight-bracket', nextPrice: { minor: 600 } });
  });
  test('says nothing of days that the card does not give', () => {
    expect(Object.keys(offer(weights(), parcel, '1 lb')!)).not.toContain('days');
    expect(offer(book(`days: [2, 5]\nprices: [{ rule: weight-bracket, ${BRACKETS} }]`), parcel, '1 lb')?.days).toEqual([
      2, 5,
    ]);
  });
});

describe('price over mass', () => {
  const steps = (of: ReturnType<typeof book>, parcel: RatedParcel, route = ZONE) =>
    priceSteps(of, parcel, route, DAY).steps[0];
  test('is told with what decides it: the volume only where it lifts the parcel above the first bracket', () => {
    // 100 in3 are just the first bracket's pound.
    expect(steps(volumes(), box('10 x 10 x 1 in'))?.rule).toBe('weight-bracket');
    expect(steps(volumes(), box('10 x 10 x 1.1 in'))?.rule).toBe('dimensional');
    expect(steps(weights(), box('10 x 10 x 9 in'))?.rule).toBe('weight-bracket');
    expect(steps(volumes(), box('10 x 10 x 1.1 in'))?.steps.map(({ price }) => price.minor)).toEqual([600, 2000]);
  });
  test('has a least mass and days only where the card has them; a mass on both ends is taken', () => {
    const told = Object.keys(steps(weights(), box('9 x 8 x 7 in'))!);
    expect(told.filter((each) => each === 'least' || each === 'days')).toEqual([]);
    const least = book(
      `prices: [{ rule: weight-bracket, ${BRACKETS} }]\nlimits: [{ limit: smallest-mass, least: 2 lb }]`,
    );
    expect(steps(least, box('9 x 8 x 7 in'))).toMatchObject({
      least: parseMass('2 lb'),
      cardFrom: '2026-01-01',
      steps: [
        { ceiling: parseMass('2 lb'), price: { minor: 600 } },
        { ceiling: parseMass('70 lb'), price: { minor: 2000 } },
      ],
    });
  });
  test('is another one in another container or zone, or where another surcharge applies, of one book', () => {
    const fees = book(
      `prices: [{ rule: flat-fee, fees: [{ container: a, prices: 4.00 }, { container: b, prices: 7.00 }] }]\n${LIMITS}`,
    );
    const fee = (container: string) => steps(fees, { ...box('9 x 8 x 7 in'), container })?.steps[0]?.price.minor;
    expect([fee('a'), fee('b'), fee('a')]).toEqual([400, 700, 400]);
    const extra = (id: string, when: string, price: number) =>
      `{ id: ${id}, name: { en: X, es: X }, when: [${when}], amount: { kind: amount, price: ${String(price)} } }`;
    const surcharged = book(
      `prices: [{ rule: weight-bracket, zones: [home, far], brackets: [{ upTo: 9 lb, prices: [5.00, 6.00] }] }]\nsurcharges: [${extra('a', '{ when: longest-side, over: 12 in }', 1)}, ${extra('b', '{ when: second-side, over: 12 in }', 2)}, ${extra('m', '{ when: mass, over: 3 lb }, { when: form, form: soft }', 4)}]`,
      '[{ by: flat, zone: home }, { by: flat, zone: far }]',
    );
    const prices = (parcel: RatedParcel, zone = 'home') =>
      steps(surcharged, parcel, { zone })?.steps.map(({ price }) => price.minor);
    expect(prices(box('9 x 8 x 7 in'))).toEqual([500, 900]);
    expect(prices(box('13 x 8 x 7 in'))).toEqual([600, 1000]);
    expect(prices(box('13 x 13 x 7 in'))).toEqual([800, 1200]);
    expect(prices(soft('13 x 13 x 7 in'))).toEqual([1200]);
    expect(prices(soft('9 x 8 x 7 in'))).toEqual([900]);
    expect(prices(box('9 x 8 x 7 in'), 'far')).toEqual([600, 1000]);
  });
});

test('a bare price is none above the largest mass, whatever is put on', () => {
  const surcharge = 'surcharges: [{ id: x, name: { en: X, es: X }, amount: { kind: amount, price: 2.50 } }]';
  const { parcel } = pricer(book(`prices: [{ rule: weight-bracket, ${BRACKETS} }]\n${surcharge}`), ZONE, DAY);
  const at = (mass: string) => parcel(box('9 x 8 x 7 in')).at(0, parseMass(mass));
  expect([at('1 lb'), at('70 lb'), at('70.1 lb')]).toEqual([750, 2250, NO_PRICE]);
});

test('packaging of another carrier goes by no flat fee, though it bears the same name', () => {
  const fees = book(`prices: [{ rule: flat-fee, fees: [{ container: a, prices: 4.00 }] }]\n${LIMITS}`);
  const by = (containerOwner?: string) => {
    const parcel = {
      ...box('9 x 8 x 7 in'),
      container: 'a',
      ...(containerOwner === undefined ? {} : { containerOwner }),
    };
    const { offers, refused } = quote(fees, parcel, parseMass('1 lb'), ZONE, DAY);
    return offers[0]?.price.minor ?? refused[0]?.why.code;
  };
  expect([by(), by('c'), by('d')]).toEqual([400, 400, 'own-packaging']);
});

test('a service that is over says until when it was sold', () => {
  const over = book(`until: 2026-06-30\nprices: [{ rule: weight-bracket, ${BRACKETS} }]`);
  const { refused } = quote(over, box('9 x 8 x 7 in'), parseMass('1 lb'), ZONE, DAY);
  expect(reasonWords(refused[0]!.why, 'en')).toBe('Not on sale on 2026-11-25 (from 2026-01-01, until 2026-06-30)');
});

describe('one route object', () => {
  const to = (postcode: string, residential?: boolean, country = 'XA'): Route => ({
    from: { postcode: '1000', country: 'XA' },
    to: { postcode, country, ...(residential === undefined ? {} : { residential }) },
  });
  const dated = () =>
    book(
      `prices: [{ rule: weight-bracket, zones: [old, new], brackets: [{ upTo: 9 lb, prices: [5.00, 6.00] }] }]\nrefuses: [{ postcodes: ['90-95'] }]\nsurcharges: [{ id: x, name: { en: X, es: X }, when: [{ when: destination, to: [{ country: XA, postcodes: ['20'] }] }, { when: residential }], amount: { kind: amount, price: 2.50 } }]`,
      '[{ by: flat, zone: old, until: 2026-06-30 }, { by: flat, zone: new, from: 2026-07-01 }]',
    );
  test('has the zone of each day and each book', () => {
    const route = to('3000');
    const price = (of: ReturnType<typeof book>, day: string) =>
      quote(of, box('9 x 8 x 7 in'), parseMass('1 lb'), route, day).offers[0]?.price.minor;
    const first = dated();
    expect([price(first, '2026-06-30'), price(first, '2026-07-01'), price(first, '2026-06-30')]).toEqual([
      500, 600, 500,
    ]);
    expect([price(weights(), '2026-07-01'), price(first, '2026-07-01')]).toEqual([500, 600]);
  });
  test('shares its key with those that pay the same for every parcel', () => {
    const of = dated();
    const key = (route: Route, day = DAY) => routeKey(of, route, day);
    expect(key(to('3000'))).toBe(key(to('4000', false)));
    expect(key({ zone: 'new' })).toBe(key({ zone: 'new' }));
    const all = [
      key(to('3000')),
      key(to('3000'), '2026-06-30'),
      key(to('3000', true)),
      key(to('9100')),
      key(to('2000')),
      key({ zone: 'new' }),
      key({ zone: 'old' }),
    ];
    expect(new Set(all).size).toBe(all.length);
  });
});

test('a reason that has no sentence comes out as itself, and a value that is missing as dots', () => {
  expect(reasonWords({ code: 'new-code', values: { mass: '2 lb', zone: '4' } }, 'en')).toBe(
    'new-code · mass 2 lb · zone 4',
  );
  expect(reasonWords({ code: 'zone-given', values: {} }, 'es')).toBe('Zona …, la indicada');
  expect(reasonWords({ code: 'zone-given', values: { zone: 'round-up' } }, 'en')).toBe('Zone round-up, as given');
});
