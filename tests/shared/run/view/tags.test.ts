import { describe, expect, it } from 'vitest';
import type { Container, Wrap } from '#shared/fitting/types.ts';
import type { OrderPlan, ParcelPlan } from '#shared/planning/types.ts';
import type { RateBook } from '#shared/rating/rate-card.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunInput, RunState } from '#shared/run/types.ts';
import { lighterChoices } from '#shared/run/view/lighter.ts';
import { shopOf } from '#tests/support/view-fixture.ts';
import type { Shop, StaffMember } from '#shared/shop/shop.ts';
import { lengthFromDecimal } from '#shared/units/length.ts';
import { massFromGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import { IDLE } from '#shared/run/initial.ts';
import {
  after,
  command,
  container,
  FACTS,
  order,
  ounces,
  parcel,
  pieceScan,
  plan,
  plannedPiece,
  taken,
} from '#tests/support/run-fixtures.ts';
import { ONE, toClose, toFill, toFold, toOver, toSeal, toWeigh, weighed } from '#tests/support/run-moments.ts';
import { badge } from '#tests/support/run-told.ts';
import { benchViewFixture } from '#tests/support/view-fixture.ts';

const words = (en: string, es = en) => ({ en, es });
const next = command('next');
const begin = (planned: OrderPlan, more: Partial<ReturnType<typeof order>> = {}): RunState => {
  const skus = planned.parcels.flatMap((each) => each.pieces.map(({ piece }) => ({ sku: piece.sku, count: 1 })));
  const input: RunInput = { type: 'order-taken', run: 'run-1', order: { ...order(skus), ...more }, plan: planned };
  return transition(IDLE, input, FACTS).state;
};

describe('the tag of an order', () => {
  const placed = (sku: string, place?: string) => ({
    ...plannedPiece(sku),
    piece: { sku, title: `piece ${sku}`, kind: 't-shirt', ...(place === undefined ? {} : { place }) },
  });
  const planned = plan([{ ...parcel([]), pieces: [placed('A', 'rail 2'), placed('B')] }]);

  it('names who, what, from where and until when', () => {
    const state = begin(planned, { note: 'a gift', arriveBy: '2026-11-28' });
    expect(benchViewFixture(after([pieceScan('A')], state)).order).toEqual({
      id: '1047',
      buyer: 'A. Buyer',
      shipBy: '2026-11-25T22:30:00.000Z',
      arriveBy: '2026-11-28',
      note: 'a gift',
      pieces: [
        { sku: 'A', title: 'piece A', place: 'rail 2', due: 1, gathered: 1, mark: 'done' },
        { sku: 'B', title: 'piece B', place: null, due: 1, gathered: 0, mark: 'waiting' },
      ],
      parcel: 0,
      parcels: 1,
    });
    expect(benchViewFixture(begin(planned)).order).toMatchObject({ arriveBy: null, note: null });
  });

  it('names a piece that the plan does not have by its number', () => {
    const state = begin(planned, { pieces: [{ sku: 'Q', count: 2 }] });
    expect(benchViewFixture(state).order?.pieces).toEqual([
      { sku: 'Q', title: 'Q', place: null, due: 2, gathered: 0, mark: 'waiting' },
    ]);
  });
});

describe('the tag of a container', () => {
  const planned = parcel(['A', 'B']);
  const told: ParcelPlan = {
    ...planned,
    offer: { ...planned.offer, reasons: [{ code: 'bracket', values: {} }] },
  };
  const other = (total: number) => ({ parcels: [parcel(['A', 'B'], 'pouch-b')], cost: { ...planned.cost, total } });
  const rates = {
    cards: [
      { services: [{ id: 'other', name: words('Other') }] },
      { services: [{ id: 'light-parcel', name: words('Light parcel', 'Paquete ligero') }] },
    ],
    places: () => null,
  } as unknown as RateBook;
  const from = (each: ParcelPlan, total = 760): RunState => after(toFill.slice(1), begin(plan([each], [other(total)])));
  const tag = (state: RunState) => benchViewFixture(state, { rates }).container;

  it('says what it is, why, and what it saves', () => {
    expect(tag(from(told))).toEqual({
      id: 'pouch-a',
      name: words('pouch-a'),
      type: 'pouch',
      wrap: words('no wrap'),
      service: 'light-parcel',
      serviceName: words('Light parcel', 'Paquete ligero'),
      price: money(625, 'USD'),
      fit: 'easy',
      spare: 10,
      piles: 1,
      doubled: null,
      doubts: [],
      saves: { over: words('pouch-b'), by: money(30, 'USD') },
      reasons: told.offer.reasons,
    });
  });

  it('says nothing of a saving that is none', () => {
    expect(tag(from(told, 730))?.saves).toBeNull();
    expect(tag(from(told, 731))?.saves).toMatchObject({ by: { minor: 1 } });
    expect(tag(begin(plan([told])))?.saves).toBeNull();
  });

  it('names a service that no card has any more by its id', () => {
    expect(benchViewFixture(from(told)).container?.serviceName).toEqual(words('light-parcel'));
  });

  it('has to spare what the tightest direction has, and never less than nothing', () => {
    const spare = (width: number, length: number, thickness: number) =>
      tag(from({ ...told, fit: { ...told.fit, slack: { width, length, thickness } } }))?.spare;
    expect([spare(3, 8, 9), spare(8, 4, 9), spare(9, 8, 5), spare(-1, 8, 9)]).toEqual([3, 4, 5, 0]);
  });

  it('says neither what was saved nor why once it is paid otherwise', () => {
    const weighing = after([next], from(told));
    const asPlanned = after([weighed('14.5')], weighing);
    expect(tag(asPlanned)).toMatchObject({ reasons: told.offer.reasons, saves: { by: { minor: 30 } } });
    const paid = after([weighed('15.9'), command('pay-next-bracket'), command('confirm')], weighing);
    expect(tag(paid)).toMatchObject({ price: { minor: 805 }, reasons: [], saves: null });
    const elsewhere: ParcelPlan = {
      ...told,
      prices: { ...told.prices, steps: told.prices.steps.slice(0, 3) },
      otherServices: [
        { ...told.prices, service: 'by-road', steps: [{ ceiling: ounces('40'), price: money(625, 'USD') }] },
      ],
    };
    const moved = after([next, weighed('15.9'), command('pay-next-bracket'), command('confirm')], from(elsewhere));
    expect(tag(moved)).toMatchObject({ service: 'by-road', price: { minor: 625 }, reasons: [], saves: null });
  });

  it('names the two pouches of a double bag as the shop names them', () => {
    const doubled = { ...container('pouch-b+pouch-a'), doubled: { outer: 'pouch-b', inner: 'pouch-a' } };
    const containers = new Map([['pouch-a', { ...container('pouch-a'), name: words('small', 'chico') }]]);
    const state = begin(plan([{ ...told, container: doubled }]));
    expect(benchViewFixture(state, { containers }).container?.doubled).toEqual({
      inner: words('small', 'chico'),
      outer: words('pouch-b'),
    });
  });
});

describe('what makes it lighter', () => {
  const wrap = (id: string, grams: number): [string, Wrap] => [
    id,
    { ...parcel([]).wrap, id, name: words(id), massPerPiece: massFromGrams(grams) },
  ];
  const pouch = (id: string, grams: number, change: Partial<Container> = {}): [string, Container] => [
    id,
    { ...container(id), mass: massFromGrams(grams), ...change },
  ];
  const inches = (width: string, length: string) => ({
    width: lengthFromDecimal(width, 'in'),
    length: lengthFromDecimal(length, 'in'),
  });
  const PADDED: Partial<Container> = { wall: lengthFromDecimal('0.1', 'in') };
  const depth = (text: string): Partial<Container> => ({
    type: 'carton',
    inside: { ...inches('10', '13'), depth: lengthFromDecimal(text, 'in') },
  });

  const choices = (
    containers: readonly [string, Container][],
    otherwise: Partial<Shop> = {},
    planned: Partial<ParcelPlan> = {},
  ) =>
    lighterChoices(
      { ...parcel(['A', 'B']), container: pouch('in-use', 40)[1], wrap: wrap('tissue', 6)[1], ...planned },
      shopOf({ containers: new Map(containers), ...otherwise }),
    ).map(({ what, mass }) => [what.en, Math.round((mass / massFromGrams(1)) * 10) / 10]);

  it('is a lighter wrap, by what it takes off all pieces, smallest change first', () => {
    const wraps = new Map([wrap('tissue', 6), wrap('none', 0), wrap('thin', 4), wrap('bubbles', 9)]);
    expect(choices([], { wraps })).toEqual([
      ['thin', 4],
      ['none', 12],
    ]);
  });

  it('is a lighter container of the same kind that is no smaller inside', () => {
    expect(
      choices([
        pouch('in-use', 40),
        pouch('lighter', 30),
        pouch('as heavy', 40),
        pouch('narrower', 30, { inside: inches('9.9', '13') }),
        pouch('shorter', 30, { inside: inches('10', '12.9') }),
        pouch('a card', 30, { type: 'card' }),
        pouch('of the carrier', 30, { ownedBy: 'merrow-post' }),
        pouch('larger', 35, { inside: inches('12', '15') }),
      ]),
    ).toEqual([
      ['larger', 5],
      ['lighter', 10],
    ]);
  });

  it('is no flatter carton', () => {
    const cartons = [
      pouch('flatter', 30, depth('3.9')),
      pouch('as deep', 31, depth('4')),
      pouch('deeper', 32, depth('5')),
    ];
    expect(choices(cartons, {}, { container: pouch('in-use', 40, depth('4'))[1] })).toEqual([
      ['deeper', 8],
      ['as deep', 9],
    ]);
  });

  it('is nothing that has run out, and nothing that the shop would not use for these pieces', () => {
    const valuable = {
      ...plannedPiece('A'),
      piece: { sku: 'A', title: 'A', kind: 't-shirt', value: money(20_000, 'USD') },
    };
    const containers = [pouch('film', 30), pouch('padded', 32, PADDED), pouch('gone', 31, PADDED)];
    expect(
      choices(
        containers,
        {
          outOfStock: ['gone'],
          wraps: new Map([wrap('none', 0), wrap('thin', 4)]),
          preferences: {
            wrapAbove: { value: money(10_000, 'USD'), wraps: ['thin'] },
            doubleBagAbove: money(10_000, 'USD'),
          },
        },
        { pieces: [valuable], container: pouch('in-use', 40, PADDED)[1] },
      ),
    ).toEqual([
      ['thin', 2],
      ['padded', 8],
    ]);
  });

  it('is three things at most', () => {
    const four = ['a', 'b', 'c', 'd'].map((id, index) => pouch(id, 30 + index));
    expect(choices(four)).toEqual([
      ['d', 7],
      ['c', 8],
      ['b', 9],
    ]);
  });
});

describe('the weigh line', () => {
  const line = (inputs: readonly RunInput[]) => benchViewFixture(after(inputs)).weigh;

  it('shows the brackets, what is planned, what is still to come and what the pieces should weigh', () => {
    const { brackets, planned, toCome, expected, uncertainty } = line(toFill)!;
    expect(brackets).toEqual(parcel([]).prices.steps);
    expect([planned, toCome]).toEqual([2, ounces('0.1')]);
    // 15 oz with a spread of 20 g: two of them either way.
    const off = massFromGrams(40);
    expect(expected).toEqual({ mean: ounces('15'), low: ounces('15') - off, high: ounces('15') + off });
    expect(uncertainty).toBeGreaterThan(0);
  });

  it('shows the margin of what was weighed once it was', () => {
    const state = after(toClose);
    expect(benchViewFixture(state).weigh?.uncertainty).toBe(state.progress[0]?.weighing?.verdict.uncertainty);
    expect(benchViewFixture(state).task).toMatchObject({
      paid: money(625, 'USD'),
      nextPrice: money(805, 'USD'),
      reading: { mass: ounces('15.9') },
      verdict: { verdict: 'close' },
      expected: { low: ounces('15') - massFromGrams(40), high: ounces('15') + massFromGrams(40) },
    });
    // What is put on after the weighing is named in the margin of error.
    expect(state.progress[0]?.weighing?.verdict.components).toContainEqual(
      expect.objectContaining({ name: 'addition', of: 'to-come', halfWidth: ounces('0.03') }),
    );
    expect(benchViewFixture(after(toOver)).task).toMatchObject({ because: 'over', verdict: { verdict: 'over' } });
  });
});

describe('the rest of the screen', () => {
  const ROSA: StaffMember = { id: 'rosa', name: 'Rosa', badge: 'b', language: 'es', role: 'packer' };
  const staff = [{ ...ROSA, id: 'lucia', name: 'Lucia', language: 'en' } as const, ROSA];
  const seen = (inputs: readonly RunInput[], otherwise: Partial<Shop> = {}) =>
    benchViewFixture(after(inputs), { staff, ...otherwise });

  it('names the bench and who stands at it, in the language that was chosen last', () => {
    expect(seen([])).toMatchObject({ bench: { id: 'bench-1', name: 'Bench 1' }, packer: null, language: 'en' });
    expect(seen([], { language: 'es' }).language).toBe('es');
    expect(seen([badge('rosa')])).toMatchObject({ packer: { name: 'Rosa', language: 'es' }, language: 'es' });
    expect(seen([badge('rosa'), { type: 'language', language: 'en', by: 'touch' }])).toMatchObject({
      packer: { name: 'Rosa', language: 'es' },
      language: 'en',
    });
    expect(seen([badge('nobody')], { language: 'es' })).toMatchObject({ packer: null, language: 'es' });
  });

  it('asks what it asks', () => {
    expect(seen(toFold).confirming).toBeNull();
    expect(seen([...toFold, command('set-aside')]).confirming).toEqual({ command: 'set-aside' });
    expect(seen([ONE, command('item-missing')]).confirming).toEqual({ command: 'set-aside', reason: 'missing' });
  });

  it('wants a photo where the shop does, and has none to fill in by itself', () => {
    const proof = { photos: 'always', keepDays: 1 } as const;
    expect(seen(toWeigh, { proof }).photo).toEqual({ run: 'run-1', parcel: 1, what: 'packed' });
    expect(seen(toWeigh)).not.toHaveProperty('photo');
    expect(seen(toWeigh)).toMatchObject({ queue: [], practice: null, slip: 'none', repeats: 0 });
  });

  it('stays lit unless the shop says otherwise', () => {
    expect(seen([]).keepAwake).toBe(true);
    expect(seen([], { keepScreenAwake: true }).keepAwake).toBe(true);
    expect(seen([], { keepScreenAwake: false })).not.toHaveProperty('keepAwake');
  });

  it('passes on the reports of a scale that hangs on it', () => {
    expect(seen([])).not.toHaveProperty('scaleOnScreen');
    expect(benchViewFixture(IDLE, {}, FACTS, { kind: 'hid-on-screen' }).scaleOnScreen).toBe(true);
  });

  it('warns of what is heavy to lift, from half of what one person should', () => {
    const sealing = (kilograms: number, type: 'pouch' | 'carton' = 'pouch') => {
      const state = after(toSeal);
      const heavy = {
        ...state.parcels[0]!,
        mass: { mean: kilograms * 1000, sd: 20 },
        container: { ...container('x'), type },
      };
      const { task } = benchViewFixture({ ...state, parcels: [heavy] });
      return task.at === 'seal' ? task.cautions : [];
    };
    expect([sealing(3), sealing(9), sealing(30), sealing(30, 'carton'), sealing(3, 'carton')]).toEqual([
      [],
      ['lifting-care'],
      ['lifting'],
      ['knife', 'lifting'],
      ['knife'],
    ]);
  });
});

describe('a fold that is otherwise than usual', () => {
  const recipes = new Map([['other', { id: 'other', name: words('Other', 'Otro'), steps: [] }]]);
  const task = (level: 'full' | 'brief' | 'quiet', usual: string | null) => {
    const begun = {
      ...(taken([parcel(['A'])]) as Extract<RunInput, { type: 'order-taken' }>),
      guidance: { 't-shirt': { level, usual } },
    };
    return benchViewFixture(after([begun, pieceScan('A'), next]), { recipes }).task;
  };

  it('says how it usually is to whom nothing else is told', () => {
    expect(task('quiet', 'other')).toMatchObject({ at: 'fold', step: 1, told: 'key', usual: words('Other', 'Otro') });
    expect(task('quiet', 'gone')).toMatchObject({ usual: null });
    expect(task('quiet', null)).toMatchObject({ at: 'fold', usual: null });
    expect(task('brief', 'other')).toMatchObject({ at: 'fold', told: 'key', usual: null });
    expect(task('full', 'other')).toMatchObject({ at: 'fold', told: 'step', usual: null });
    expect(task('quiet', 'flat')).toEqual({
      at: 'fill',
      cautions: [],
      asUsual: [{ piece: 'piece A', recipe: words('flat'), block: { width: 220, length: 280, thickness: 20 } }],
    });
  });

  it('shows its words, its drawing and the block that it becomes', () => {
    const why = words('so it lies flat');
    const folded = plannedPiece('A');
    const steps = folded.fold.steps.map((step, index) => (index === 0 ? { ...step, why } : step));
    const state = after(
      [pieceScan('A'), next],
      begin(plan([{ ...parcel([]), pieces: [{ ...folded, fold: { ...folded.fold, steps } }] }])),
    );
    expect(benchViewFixture(state).task).toEqual({
      at: 'fold',
      piece: 'piece A',
      pieceIndex: 0,
      pieces: 1,
      recipe: words('flat'),
      step: 0,
      steps: 2,
      words: words('step 1'),
      spoken: words('step 1'),
      why,
      drawing: steps[0]?.drawing,
      block: folded.fold.block,
      told: 'step',
      usual: null,
    });
  });
});
