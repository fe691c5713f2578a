import type { Container, Wrap } from '#shared/fitting/types.ts';
import type { FoldAction, Recipe } from '#shared/folding/types.ts';
import type { Cloth, Kind, Piece } from '#shared/garments/types.ts';
import type { Order } from '#shared/planning/types.ts';
import type { RateBook, RateCard, Service } from '#shared/rating/rate-card.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { parseLength } from '#shared/units/length.ts';
import { parseMass } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

/** A shop of our own invention, small enough to reckon by hand and with every kind of price rule in it. */

export const DAY = '2026-11-25';

const words = (text: string) => ({ en: text, es: text });

function recipe(id: string, actions: readonly FoldAction[]): [string, Recipe] {
  const steps = actions.map((action) => ({ action, words: words(action.do), spoken: words(action.do) }));
  return [id, { id, name: words(id), steps }];
}

const THIRDS: readonly FoldAction[] = [
  { do: 'fold-width', from: 'right', to: [2, 3] },
  { do: 'fold-width', from: 'left', to: [1, 2] },
];
const HALF_LENGTH: FoldAction = { do: 'fold-length', from: 'bottom', to: [1, 2] };

const RECIPES = new Map([
  recipe('wide', [{ do: 'sleeves-in' }, HALF_LENGTH]),
  recipe('slim', [{ do: 'sleeves-in' }, ...THIRDS, HALF_LENGTH]),
  recipe('compact', [{ do: 'sleeves-in' }, ...THIRDS, HALF_LENGTH, HALF_LENGTH]),
  recipe('legs-flat', [{ do: 'legs-together' }, HALF_LENGTH]),
  recipe('legs-compact', [{ do: 'legs-together' }, HALF_LENGTH, HALF_LENGTH]),
]);

function cloth(id: string, arealMass: number, free: number, pressed: number, mayPress = true): [string, Cloth] {
  const source = 'invented for this test';
  return [
    id,
    {
      id,
      name: words(id),
      arealMass,
      thicknessFree: free,
      thicknessPressed: pressed,
      thicknessSpread: 0.12,
      bendingLength: 20,
      mayPress,
      source,
    },
  ];
}

const CLOTHS = new Map([
  cloth('jersey', 170, 0.85, 0.55),
  cloth('denim', 400, 1, 0.75),
  cloth('knit', 350, 3, 1.8),
  cloth('leather', 550, 1, 0.95, false),
]);

function kind(part: Pick<Kind, 'id' | 'outline' | 'sizes' | 'defaultCloth' | 'mass' | 'recipes'>): [string, Kind] {
  const source = 'invented for this test';
  return [part.id, { name: words(part.id), defaultSize: 'M', clothLayers: 2, cautions: [], source, ...part }];
}

const top = (width: number, length: number, sleeveLength: number) => ({
  width,
  length,
  sleeveLength,
  sleeveWidth: 180,
});
const TOPS = ['wide', 'slim', 'compact'];

const KINDS = new Map([
  kind({
    id: 't-shirt',
    outline: 'top',
    sizes: { S: top(460, 700, 200), M: top(510, 730, 210), L: top(560, 760, 220) },
    defaultCloth: 'jersey',
    mass: { mean: 160, sd: 25 },
    recipes: TOPS,
  }),
  kind({
    id: 'sweater',
    outline: 'top',
    sizes: { M: top(540, 680, 600), L: top(580, 700, 620) },
    defaultCloth: 'knit',
    mass: { mean: 420, sd: 110 },
    recipes: TOPS,
  }),
  kind({
    id: 'jacket',
    outline: 'top',
    sizes: { M: top(540, 700, 620) },
    defaultCloth: 'leather',
    mass: { mean: 1100, sd: 200 },
    recipes: TOPS,
  }),
  kind({
    id: 'jeans',
    outline: 'legs',
    sizes: { M: { width: 420, length: 1060, inseam: 790, hemWidth: 200 } },
    defaultCloth: 'denim',
    mass: { mean: 600, sd: 110 },
    recipes: ['legs-flat', 'legs-compact'],
  }),
  kind({
    id: 'shoes',
    outline: 'block',
    sizes: { M: { width: 200, length: 320, height: 110 } },
    defaultCloth: 'leather',
    mass: { mean: 900, sd: 150 },
    recipes: [],
  }),
]);

function container(
  id: string,
  type: Container['type'],
  [width, length, depth]: readonly [string, string, string?],
  mass: string,
  cents: number,
  more: Partial<Container> = {},
): [string, Container] {
  const size = {
    width: parseLength(width),
    length: parseLength(length),
    ...(depth === undefined ? {} : { depth: parseLength(depth) }),
  };
  return [
    id,
    {
      id,
      name: words(id),
      type,
      inside: size,
      outside: size,
      closing: parseLength(type === 'carton' ? '0 in' : '1 in'),
      wall: parseLength('0 in'),
      mass: parseMass(mass),
      massSd: parseMass('0.02 oz'),
      cost: money(cents, 'USD'),
      seconds: type === 'carton' ? 45 : 15,
      cautions: [],
      ...more,
    },
  ];
}

export const CONTAINERS = new Map([
  container('pouch-small', 'pouch', ['9 in', '12 in'], '0.3 oz', 9),
  container('pouch-middle', 'pouch', ['12 in', '15.5 in'], '0.5 oz', 14),
  container('pouch-large', 'pouch', ['15 in', '20 in'], '0.8 oz', 22),
  container('card-flat', 'card', ['9.5 in', '12.5 in'], '2 oz', 0, {
    ownedBy: 'test-post',
    thicknessCap: parseLength('0.75 in'),
  }),
  container('carton-small', 'carton', ['9 in', '12 in', '4 in'], '5 oz', 62),
  container('carton-large', 'carton', ['13 in', '17 in', '8 in'], '12 oz', 118),
]);

const WRAPS: readonly Wrap[] = [
  {
    id: 'none',
    name: words('none'),
    massPerPiece: parseMass('0 g'),
    costPerPiece: money(0, 'USD'),
    secondsPerPiece: 0,
    thickness: 0,
  },
  {
    id: 'tissue',
    name: words('tissue'),
    massPerPiece: parseMass('6.6 g'),
    costPerPiece: money(6, 'USD'),
    secondsPerPiece: 8,
    thickness: 0.4,
  },
];

function service(id: string, most: string, prices: Service['prices'], more: Partial<Service> = {}): Service {
  return {
    id,
    name: words(id),
    days: [1, 3],
    refuses: [],
    limits: [{ limit: 'largest-mass', most: parseMass(most) }],
    prices,
    discounts: [],
    surcharges: [],
    ...more,
  };
}

const bracket = (upTo: string, cents: number) => ({ upTo: parseMass(upTo), prices: [cents] });
const quarterInch = { mode: 'down', step: parseLength('0.25 in') } as const;
const LEAST = {
  limit: 'smallest-size',
  least: [parseLength('6 in'), parseLength('3 in'), parseLength('0.25 in')],
} as const;

const pounds = Array.from({ length: 20 }, (_, index) => bracket(`${String(index + 1)} lb`, 850 + 90 * index));

export const CARD: RateCard = {
  carrier: 'test-post',
  name: words('Test post'),
  currency: 'USD',
  from: '2026-01-01',
  units: { mass: 'oz', length: 'in' },
  zones: [{ by: 'flat', zone: 'one' }],
  services: [
    service(
      'light',
      '16 oz',
      [
        {
          rule: 'weight-bracket',
          zones: null,
          brackets: [bracket('4 oz', 380), bracket('8 oz', 440), bracket('12 oz', 520), bracket('16 oz', 610)],
          dimensional: [],
          fallingPrices: false,
        },
      ],
      {
        days: [2, 5],
        limits: [
          { limit: 'largest-mass', most: parseMass('16 oz') },
          LEAST,
          { limit: 'longest-side', most: parseLength('22 in'), measured: 'raw' },
        ],
      },
    ),
    service('by-weight', '20 lb', [
      {
        rule: 'weight-bracket',
        zones: null,
        brackets: [bracket('8 oz', 720), ...pounds],
        dimensional: [
          {
            divisor: 139,
            length: 'in',
            mass: 'lb',
            sides: { mode: 'up', step: parseLength('1 in') },
            roundUpTo: parseMass('1 lb'),
          },
        ],
        fallingPrices: false,
      },
    ]),
    service('flat-card', '4 lb', [
      { rule: 'flat-fee', zones: null, fees: [{ container: 'card-flat', prices: [905] }] },
    ]),
    service('cubic-soft', '20 lb', [
      {
        rule: 'cubic-soft',
        zones: null,
        sides: quarterInch,
        tiers: [
          { tier: '0.10', upTo: parseLength('21 in'), prices: [760] },
          { tier: '0.20', upTo: parseLength('27 in'), prices: [870] },
          { tier: '0.30', upTo: parseLength('31 in'), prices: [980] },
        ],
      },
    ]),
    service('cubic-box', '20 lb', [
      {
        rule: 'cubic-box',
        zones: null,
        sides: quarterInch,
        tiers: [
          { tier: '0.25', upTo: { amount: '0.25', unit: 'ft3' }, prices: [930] },
          { tier: '1.10', upTo: { amount: '1.10', unit: 'ft3' }, prices: [1390] },
        ],
      },
    ]),
  ],
};

const RATES: RateBook = { cards: [CARD], places: () => null };

/** What planning reads of a shop; what it does not read is left out. */
type PlannedShop = Pick<
  Shop,
  'currency' | 'units' | 'from' | 'labour' | 'wardrobe' | 'recipes' | 'containers' | 'wraps' | 'rates' | 'additions'
>;

export function smallShop(changes: Partial<PlannedShop> = {}): Shop {
  const planned: PlannedShop = {
    currency: 'USD',
    units: { mass: 'oz', massPlaces: 1, length: 'in' },
    from: { postcode: '55802', country: 'US' },
    labour: { perHour: money(1800, 'USD'), repackSeconds: 150 },
    wardrobe: { kinds: KINDS, cloths: CLOTHS },
    recipes: RECIPES,
    containers: CONTAINERS,
    wraps: new Map(WRAPS.map((wrap) => [wrap.id, wrap])),
    rates: RATES,
    additions: [{ name: 'label', mass: parseMass('0.1 oz'), plusMinus: parseMass('0.02 oz') }],
    ...changes,
  };
  return planned as Shop;
}

export function piece(sku: string, kindId: string, more: Partial<Piece> = {}): Piece {
  return { sku, title: `${kindId} ${sku}`, kind: kindId, ...more };
}

export function orderOf(pieces: readonly Piece[], more: Partial<Order> = {}): Order {
  return {
    id: 'A-1',
    pieces: pieces.map(({ sku }) => ({ sku, count: 1 })),
    buyer: 'Test Buyer',
    address: [],
    to: { postcode: '60601', country: 'US' },
    shipBy: '2026-11-26T16:00:00Z',
    ...more,
  };
}

export function bySku(pieces: readonly Piece[]): ReadonlyMap<string, Piece> {
  return new Map(pieces.map((each) => [each.sku, each]));
}
