import { expect, test } from 'vitest';
import { compareCards } from '#shared/rating/compare-cards.ts';
import { costOfChange } from '#shared/rating/cost-of-change.ts';
import type { RateBook, RateCard } from '#shared/rating/rate-card.ts';
import { parseMass } from '#shared/units/mass.ts';
import { bookWith, box, demoBook } from '#tests/support/rate-book.ts';

const DAY = '2026-11-25';
const book = demoBook();
const merrow = book.cards[0]!;

/** Light parcels of zone 3 above 8 oz up to 12 oz cost so much more; brackets of 12 oz are split at 10 oz. */
function dearer(by: number): RateCard {
  return {
    ...merrow,
    services: merrow.services
      .filter((service) => service.id !== 'flat-large')
      .map((service) => {
        const rule = service.prices[0];
        if (service.id !== 'light-parcel' || rule?.rule !== 'weight-bracket') return service;
        const brackets = rule.brackets.flatMap((bracket) => {
          if (bracket.upTo !== parseMass('12 oz')) return [bracket];
          const prices = bracket.prices.map((price, zone) => (zone === 2 ? price + by : price));
          return [
            { upTo: parseMass('10 oz'), prices: bracket.prices },
            { ...bracket, prices },
          ];
        });
        return { ...service, prices: [{ ...rule, brackets }] };
      }),
  };
}

test('a card against itself has no difference', () => {
  const difference = compareCards(merrow, DAY, merrow, DAY);
  expect(difference).toMatchObject({ added: [], removed: [], otherRule: [], changes: [] });
  expect(difference.unchanged).toBeGreaterThan(100);
});

test('what went up is shown by bracket and zone, also where brackets were split', () => {
  expect(compareCards(merrow, DAY, dearer(25), DAY)).toMatchObject({
    removed: ['flat-large'],
    changes: [{ service: 'light-parcel', row: '12 oz', zone: '3', before: 500, after: 525 }],
  });
});

test('what it means for the parcels that were sent', () => {
  const after: RateBook = { ...book, cards: [dearer(25), ...book.cards.slice(1)] };
  const sent = ['9 oz', '11 oz', '12 oz', '13 oz'].map((mass) => ({
    service: 'light-parcel',
    parcel: box('10 x 8 x 2 in'),
    mass: parseMass(mass),
    route: { zone: '3' },
  }));
  const gone = { ...sent[0]!, service: 'flat-large' };
  const cost = costOfChange({ book, day: DAY }, { book: after, day: DAY }, [...sent, gone]);
  expect(cost).toMatchObject({ parcels: 4, left: 1, byService: [{ service: 'light-parcel', parcels: 4 }] });
  expect(cost.after - cost.before).toBe(50);
});

/** A card of services, each with its prices as a card writes them. */
const cardOf = (services: Readonly<Record<string, string>>) =>
  bookWith(
    Object.entries(services)
      .map(
        ([id, rest]) =>
          `  - { id: ${id}, name: { en: S, es: S }, limits: [{ limit: largest-mass, most: 70 lb }], ${rest} }`,
      )
      .join('\n'),
    '[{ by: flat, zone: a }]',
  ).cards[0]!;
const changesOf = (before: Readonly<Record<string, string>>, after: Readonly<Record<string, string>>, day = DAY) => {
  const { changes, ...rest } = compareCards(cardOf(before), day, cardOf(after), day);
  return { ...rest, changes: changes.map(({ row, zone, before, after }) => [row, zone, before, after]) };
};
const brackets = (text: string) => `prices: [{ rule: weight-bracket, ${text} }]`;

test('containers and tiers are held side by side by their names, each in every zone of either card', () => {
  const fees = (text: string) => `prices: [{ rule: flat-fee, fees: [${text}] }]`;
  expect(
    changesOf(
      { s: fees('{ container: a, prices: 5.00 }, { container: b, prices: 6.00 }') },
      { s: fees('{ container: c, prices: 7.00 }, { container: a, prices: 5.50 }') },
    ),
  ).toMatchObject({
    unchanged: 0,
    changes: [
      ['a', null, 500, 550],
      ['b', null, 600, null],
      ['c', null, null, 700],
    ],
  });
  const tiers = (zones: string, prices: string) =>
    `prices: [{ rule: cubic-box, zones: ${zones}, sides: { mode: down, step: 0.25 in }, tiers: [{ tier: small, upTo: 0.1 ft3, prices: ${prices} }] }]`;
  expect(
    changesOf({ s: tiers("['1', '2']", '[1.00, 2.00]') }, { s: tiers("['1', '3']", '[1.00, 3.00]') }),
  ).toMatchObject({
    unchanged: 1,
    changes: [
      ['small', '2', 200, null],
      ['small', '3', null, 300],
    ],
  });
  const soft = (prices: string) =>
    `prices: [{ rule: cubic-soft, sides: { mode: down, step: 0.25 in }, tiers: [{ tier: t, upTo: 20 in, prices: 2.00 }, { tier: u, upTo: 30 in, prices: ${prices} }] }]`;
  expect(changesOf({ s: soft('3.00') }, { s: soft('3.10') })).toMatchObject({
    unchanged: 1,
    changes: [['u', null, 300, 310]],
  });
});

test('weight brackets are compared at every ceiling of either, in order, up to the heavier end', () => {
  const before = brackets('brackets: [{ upTo: 2 lb, prices: 4.00 }, { upTo: 5 lb, prices: 6.00 }]');
  const after = brackets(
    'brackets: [{ upTo: 1 lb, prices: 4.00 }, { upTo: 5 lb, prices: 5.00 }, { upTo: 9 lb, prices: 9.00 }]',
  );
  expect(changesOf({ s: before }, { s: after })).toMatchObject({
    unchanged: 1,
    changes: [
      ['2 lb', null, 400, 500],
      ['5 lb', null, 600, 500],
      ['9 lb', null, null, 900],
    ],
  });
});

test('one price for everywhere stands beside those of zones', () => {
  const everywhere = brackets('brackets: [{ upTo: 1 lb, prices: 4.00 }]');
  const zoned = brackets("zones: ['1', '2'], brackets: [{ upTo: 1 lb, prices: [4.00, 4.50] }]");
  expect(changesOf({ s: everywhere }, { s: zoned })).toMatchObject({
    unchanged: 1,
    changes: [['1 lb', '2', 400, 450]],
  });
  expect(changesOf({ s: zoned }, { s: everywhere })).toMatchObject({
    unchanged: 1,
    changes: [['1 lb', '2', 450, 400]],
  });
});

test('a service that is new, gone or priced in another way is named, and only as it is sold on the day', () => {
  const plain = brackets('brackets: [{ upTo: 1 lb, prices: 4.00 }]');
  const flat = 'prices: [{ rule: flat-fee, fees: [{ container: x, prices: 1 }] }]';
  const later = brackets('from: 2026-12-01, brackets: [{ upTo: 1 lb, prices: 9.00 }]');
  const before = { kept: plain, gone: plain, turned: plain, over: `until: 2026-11-01, ${plain}`, waits: plain };
  const after = { kept: plain, turned: flat, fresh: plain, over: plain, waits: later };
  expect(changesOf(before, after)).toEqual({
    added: ['fresh', 'over'],
    removed: ['gone', 'waits'],
    otherRule: ['turned'],
    changes: [],
    unchanged: 1,
  });
});

test('the cost of a change adds up each parcel on both books, by its own service and by the cheapest', () => {
  const of = (light: string, heavy: string) => ({
    cards: [
      cardOf({
        light: brackets(`brackets: [{ upTo: 1 lb, prices: ${light} }]`),
        heavy: brackets(`brackets: [{ upTo: 9 lb, prices: ${heavy} }]`),
      }),
    ],
    places: () => null,
  });
  const parcel = (service: string, mass: string) => ({
    service,
    parcel: box('9 x 8 x 7 in'),
    mass: parseMass(mass),
    route: { zone: 'a' },
  });
  const sent = [parcel('light', '1 lb'), parcel('heavy', '1 lb'), parcel('heavy', '2 lb'), parcel('light', '2 lb')];
  // What one of the books does not take is left out of all sums.
  const fewer = {
    ...of('4.50', '4.40'),
    cards: [cardOf({ heavy: brackets('brackets: [{ upTo: 9 lb, prices: 4.40 }]') })],
  };
  for (const [before, after] of [
    [of('4.00', '7.00'), fewer],
    [fewer, of('4.00', '7.00')],
  ] as const) {
    const cost = costOfChange({ book: before, day: DAY }, { book: after, day: DAY }, sent);
    expect(cost).toMatchObject({ parcels: 2, left: 2, byService: [{ service: 'heavy', parcels: 2 }] });
    expect(cost.before + cost.after).toBe(2 * (700 + 440));
  }
  expect(costOfChange({ book: of('4.00', '7.00'), day: DAY }, { book: of('4.50', '4.40'), day: DAY }, sent)).toEqual({
    currency: 'USD',
    parcels: 3,
    before: 400 + 700 + 700,
    after: 450 + 440 + 440,
    byService: [
      { service: 'light', parcels: 1, before: 400, after: 450 },
      { service: 'heavy', parcels: 2, before: 1400, after: 880 },
    ],
    cheapestBefore: 400 + 400 + 700,
    cheapestAfter: 440 + 440 + 440,
    left: 1,
  });
});
