import fc from 'fast-check';

/** Rate cards as their YAML would say them, with every kind of rule, limit, surcharge and date. */

const name = { en: 'N', es: 'N' };
const cents = (least: number, most: number) => fc.integer({ min: least, max: most }).map((minor) => minor / 100);
const day = fc.constantFrom('2026-03-01', '2026-06-30', '2026-07-01', '2026-12-31');
const dates = fc.oneof(
  { weight: 3, arbitrary: fc.constant({}) },
  day.map((from) => ({ from })),
  day.map((until) => ({ until })),
);
const inch = fc.integer({ min: 4, max: 120 }).map((quarters) => `${String(quarters / 4)} in`);
const measured = fc.constantFrom('raw', 'rounded');
const volume = fc.oneof(
  fc.integer({ min: 10, max: 3000 }).map((count) => `${String(count)} in3`),
  fc.integer({ min: 1, max: 100 }).map((count) => `${String(count / 100)} ft3`),
  fc.integer({ min: 1, max: 60 }).map((count) => `${String(count)} l`),
);
const rounding = fc.record({
  mode: fc.constantFrom('down', 'nearest', 'up'),
  step: fc.constantFrom('0.25 in', '1 in', '0.5 in', '2 in', '0.001 in', '1 cm', '0.5 cm', '3 mm'),
});
const ZONES = ['a', 'b', 'c'];

/** Rows whose prices never fall. */
function rows<Key>(keys: readonly Key[], zoned: boolean, named: (key: Key, index: number) => object) {
  const width = zoned ? ZONES.length : 1;
  return fc
    .array(fc.integer({ min: 0, max: 400 }), { minLength: keys.length * width, maxLength: keys.length * width })
    .map((steps) =>
      keys.map((key, row) => {
        const prices = Array.from({ length: width }, (_, column) => {
          const total = steps.filter((_step, index) => index % width === column && index <= row * width + column);
          return total.reduce((sum, step) => sum + step, 100) / 100;
        });
        return { ...named(key, row), prices };
      }),
    );
}

const ascending = (most: number, count: number) =>
  fc
    .uniqueArray(fc.integer({ min: 1, max: most }), { minLength: 1, maxLength: count })
    .map((list) => list.sort((a, b) => a - b));

const dimensional = fc.record(
  {
    divisor: fc.constantFrom(139, 166, 194, 5000),
    length: fc.constantFrom('in', 'cm'),
    mass: fc.constantFrom('lb', 'kg'),
    sides: rounding,
    roundUpTo: fc.constantFrom('1 lb', '0.5 kg', '1 oz', '1 g'),
    above: fc.record({ volume, measured }),
    nonRectangular: fc.constantFrom(785, 500),
  },
  { requiredKeys: ['divisor', 'length', 'mass', 'sides', 'roundUpTo'] },
);

const weightBracket = fc
  .tuple(
    fc.constantFrom('oz', 'lb', 'kg'),
    ascending(60, 8),
    fc.boolean(),
    fc.option(dimensional, { nil: null }),
    fc.boolean(),
  )
  .chain(([unit, counts, zoned, volumetric, twice]) =>
    rows(counts, zoned, (count) => ({ upTo: `${String(count)} ${unit}` })).map((brackets) => {
      const two = [
        { ...volumetric, until: '2026-06-30' },
        { ...volumetric, from: '2026-07-01', divisor: 139 },
      ];
      return {
        rule: 'weight-bracket',
        ...(zoned ? { zones: ZONES } : {}),
        brackets,
        ...(volumetric === null ? {} : { dimensional: twice ? two : [volumetric] }),
      };
    }),
  );

const flatFee = fc.boolean().chain((zoned) =>
  rows(['own-card', 'plain'], zoned, (container) => ({ container })).map((fees) => ({
    rule: 'flat-fee',
    ...(zoned ? { zones: ZONES } : {}),
    fees,
  })),
);

const cubic = fc
  .tuple(fc.constantFrom('cubic-box', 'cubic-soft'), ascending(60, 6), fc.boolean(), rounding)
  .chain(([rule, counts, zoned, sides]) =>
    rows(counts, zoned, (count, index) => ({
      tier: `t${String(index)}`,
      upTo: rule === 'cubic-box' ? `${String(count / 50)} ft3` : `${String(count)} in`,
    })).map((tiers) => ({ rule, sides, ...(zoned ? { zones: ZONES } : {}), tiers })),
  );

/** Absent more often than not. */
const forms = { forms: fc.constantFrom(undefined, undefined, ['roll'], ['box', 'soft'], ['soft']) };

const limit = fc
  .tuple(
    fc.oneof(
      fc.record({
        limit: fc.constantFrom(
          'longest-side',
          'second-side',
          'shortest-side',
          'length-and-girth',
          'sum-of-sides',
          'length-and-two-diameters',
        ),
        most: fc.integer({ min: 8, max: 200 }).map((count) => `${String(count / 2)} in`),
        measured,
        ...forms,
      }),
      fc.record({
        limit: fc.constant('smallest-size'),
        least: fc.constantFrom(['2 in', '1 in', '0.25 in'], ['14 cm', '9 cm']),
        ...forms,
      }),
      fc.record({ limit: fc.constant('smallest-mass'), least: fc.constantFrom('4 oz', '250 g', '0.5 lb') }),
      fc.record({ limit: fc.constant('largest-volume'), most: volume, ...forms }),
      fc.record({ limit: fc.constant('largest-mass'), most: fc.constantFrom('2 kg', '20 lb', '15.999 oz') }),
    ),
    dates,
  )
  .map(([rule, when]) => ({ ...rule, ...when }));

const range = fc.constantFrom('10-19', '2', '000-499', '55');
const sizeCondition = fc.oneof(
  fc.record({
    when: fc.constantFrom('longest-side', 'second-side', 'shortest-side', 'length-and-girth'),
    over: inch,
    measured,
  }),
  fc.record({ when: fc.constant('volume'), over: volume }),
);
const plainCondition = fc.oneof(
  fc.constant({ when: 'always' }),
  fc.record({ when: fc.constant('mass'), over: fc.constantFrom('1 lb', '500 g', '40.5 oz') }),
  fc.record({ when: fc.constant('smaller-than'), least: fc.constant(['6 in', '3 in', '0.25 in']) }),
  fc.record({ when: fc.constant('form'), form: fc.constantFrom('box', 'soft', 'roll') }),
  fc.constant({ when: 'residential' }),
  fc.record({
    when: fc.constant('destination'),
    to: fc.array(
      fc.record({ country: fc.constant('XA'), postcodes: fc.array(range, { minLength: 1, maxLength: 2 }) }),
      { minLength: 1, maxLength: 2 },
    ),
  }),
  fc.record({ when: fc.constant('zone'), zones: fc.subarray(ZONES, { minLength: 1 }) }),
);

const amount = fc.oneof(
  fc.record({ kind: fc.constant('amount'), price: cents(0, 900) }),
  fc.record(
    {
      kind: fc.constant('per-cent'),
      perCent: fc.integer({ min: 0, max: 250_000 }).map((count) => count / 10_000),
      of: fc.constantFrom('price', 'total'),
      step: fc.constantFrom(0.01, 0.05),
      mode: fc.constantFrom('down', 'nearest', 'up'),
    },
    { requiredKeys: ['kind', 'perCent'] },
  ),
);

/** Ids differ, so that each can be told from its twin. */
const adjustments = (condition: fc.Arbitrary<object>) =>
  fc
    .array(
      fc.tuple(
        fc.record(
          { when: fc.array(condition, { minLength: 1, maxLength: 2 }), amount, group: fc.constantFrom('g', 'h') },
          { requiredKeys: ['amount'] },
        ),
        dates,
      ),
      { maxLength: 4 },
    )
    .map((list) => list.map(([each, when], index) => ({ id: `x${String(index)}`, name, ...each, ...when })));

const service = fc
  .record({
    rule: fc.oneof({ weight: 2, arbitrary: weightBracket }, flatFee, { weight: 2, arbitrary: cubic }),
    limits: fc.array(limit, { maxLength: 3 }),
    // A discount for being large is no card that a book takes.
    discounts: adjustments(plainCondition),
    surcharges: adjustments(fc.oneof(plainCondition, sizeCondition)),
    refuses: fc.constantFrom([], [], [{ country: 'XA', postcodes: ['3', '77-79'] }], [{ country: 'XB' }]),
    types: fc.constantFrom(undefined, undefined, ['pouch'], ['card', 'carton']),
    containers: fc.constantFrom(undefined, undefined, undefined, ['own-card'], ['plain', 'own-card']),
  })
  .map(({ rule, limits, types, containers, ...rest }) => ({
    ...rest,
    ...(containers === undefined ? {} : { containers }),
    ...(types === undefined ? {} : { containerTypes: types }),
    limits: [...limits, { limit: 'largest-mass', most: '30 lb' }],
    prices: [rule],
  }));

export const randomCard = fc.array(service, { minLength: 1, maxLength: 4 }).map((services) => ({
  carrier: 'random',
  name,
  currency: 'USD',
  units: { mass: 'oz', length: 'in' },
  from: '2026-01-01',
  zones: [
    { by: 'flat', zone: 'a', countries: ['XA'] },
    { by: 'flat', zone: 'b', countries: ['XB'] },
    { by: 'flat', zone: 'c' },
  ],
  services: services.map((each, index) => ({ id: `s${String(index)}`, name, ...each })),
}));

export const randomDestination = fc.record({
  country: fc.constantFrom('XA', 'XA', 'XB', 'XC'),
  postcode: fc.integer({ min: 0, max: 99_999 }).map((number) => String(number).padStart(5, '0')),
});
