import { describe, expect, it } from 'vitest';
import { bySku, CARD, CONTAINERS, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { Piece } from '#shared/garments/types.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import { whatFits, type ContainerFit } from '#shared/planning/what-fits.ts';
import type { Shop } from '#shared/shop/shop.ts';
import { lengthFromMillimetres, parseLength, toMillimetres } from '#shared/units/length.ts';
import { massFromGrams, parseMass } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

const TEE = piece('T1', 't-shirt', { size: 'M', mass: massFromGrams(160) });
const SHOES = piece('H1', 'shoes');
const shop = smallShop();

const asked = (pieces: readonly Piece[], within: Shop = shop, without: readonly string[] = []) =>
  whatFits({ order: orderOf(pieces), pieces: bySku(pieces), shop: within, day: DAY, without });
const only = (...containers: Container[]) =>
  smallShop({ containers: new Map(containers.map((each) => [each.id, each])) });
const inIt = (pieces: readonly Piece[], container: Container, more: Partial<Shop> = {}): ContainerFit => {
  const [found, ...others] = asked(pieces, { ...only(container), ...more }).containers;
  expect(others).toEqual([]);
  return found!;
};

function box(width: string, length: string, depth: string, more: Partial<Container> = {}): Container {
  const inside = { width: parseLength(width), length: parseLength(length), depth: parseLength(depth) };
  return { ...CONTAINERS.get('carton-small')!, id: 'box', inside, outside: inside, ...more };
}

describe('what fits: the pieces', () => {
  it('are told with what they weigh, whether somebody weighed them, their cloth and what was assumed', () => {
    const { pieces } = asked([TEE, piece('S1', 'sweater', { cloth: 'jersey' }), SHOES]);
    expect(pieces).toEqual([
      {
        sku: 'T1',
        title: 't-shirt T1',
        kind: 't-shirt',
        cloth: 'jersey',
        grams: 160,
        sd: 1,
        weighed: true,
        assumed: ['cloth'],
      },
      expect.objectContaining({ sku: 'S1', cloth: 'jersey', weighed: false, assumed: ['size'] }),
      // a thing with corners is of no cloth
      expect.objectContaining({ sku: 'H1', cloth: null, weighed: false, assumed: [] }),
    ]);
    expect(pieces[2]?.grams).toBe(900);
  });
});

describe('what fits: the containers', () => {
  it('begin with the one that is planned, then what is dearer and dearer, then what does not take them', () => {
    const { containers, plan } = asked([TEE]);
    const planned = planOrder({ order: orderOf([TEE]), pieces: bySku([TEE]), shop, day: DAY });
    expect(containers.map(({ isChosen }) => isChosen)).toEqual([true, false, false, false, false, false]);
    expect(containers[0]?.container.id).toBe(planned.parcels[0]?.container.id);
    expect(containers[0]?.cost).toEqual(planned.cost);
    expect(plan?.cost).toEqual(planned.cost);
    expect(plan?.parcels).toEqual(planned.parcels);
    const totals = containers.flatMap(({ cost }) => cost?.total ?? []);
    expect(totals).toEqual(totals.toSorted((a, b) => a - b));
    const taking = containers.map(({ cost }) => cost !== null);
    expect(taking).toEqual(taking.toSorted((a, b) => Number(b) - Number(a)));
    expect(new Set(containers.map(({ container }) => container.id))).toEqual(new Set(CONTAINERS.keys()));
  });

  it('say why they are the one, or why not: one sentence in each language', () => {
    const { containers, planWhy } = asked([TEE]);
    const [chosen, second] = containers;
    expect(chosen?.why).toEqual(planWhy);
    expect(chosen?.why.en).toMatch(/^Saves \$\d+\.\d\d against /);
    expect(chosen?.why.es).toMatch(/^Ahorra /);
    const more = Math.round(second!.cost!.total - chosen!.cost!.total);
    expect(second?.why.en).toBe(`Costs $${(more / 100).toFixed(2)} more`);
    expect(second?.why.es).toMatch(/^Cuesta .* más$/);
    expect(containers.every(({ why }) => why.en !== '' && why.es !== '')).toBe(true);
  });

  it('tell what was held against each service in them', () => {
    const { containers } = asked([TEE]);
    const [chosen] = containers;
    expect(chosen?.service?.service).toBe('light');
    // 160 g, a pouch of 0.3 oz and a label of 0.1 oz are 6.0 oz: 4.40, surely
    expect(chosen?.postage).toBeCloseTo(440, 3);
    const others = CARD.services.map(({ id }) => id).filter((id) => id !== 'light');
    expect(chosen?.services.map(({ service }) => service).toSorted()).toEqual(others.toSorted());
    const soft = chosen?.services.find(({ service }) => service === 'cubic-soft');
    expect(soft?.why).toEqual({
      en: 'Costs $3.20 more',
      es: expect.stringMatching(/^Cuesta .*3[.,]20.* más$/) as string,
    });
    expect(containers.every(({ services }) => services.every(({ why }) => why.en !== '' && why.es !== ''))).toBe(true);
  });

  it('that do not take them come nearest first, without a cost, and tell what is lacking', () => {
    // 320 x 200 x 110 mm: 12.6 x 7.87 x 4.33 in
    const near = box('8 in', '12.5 in', '5 in', { id: 'near' });
    const far = box('8 in', '12 in', '5 in', { id: 'far' });
    const middle = box('7.5 in', '13 in', '5 in', { id: 'middle' });
    const fits = box('8 in', '13 in', '5 in', { id: 'fits' });
    const found = asked([SHOES], only(far, near, middle, fits)).containers;
    expect(found.map(({ container: { id } }) => id)).toEqual(['fits', 'near', 'middle', 'far']);
    expect(found.slice(1).map(({ why }) => why.en)).toEqual([
      'Too tight: 0.10 in short in length',
      'Too tight: 0.38 in short in width',
      'Too tight: 0.60 in short in length',
    ]);
    for (const each of found.slice(1)) {
      expect([each.cost, each.postage, each.service, each.services, each.isChosen]).toEqual([
        null,
        null,
        null,
        [],
        false,
      ]);
    }
  });

  it('that they fit and no service takes come after those that can be sent, before those that are too small', () => {
    const heavy = { ...SHOES, mass: massFromGrams(9060) };
    // 20 lb are 9,071.8 g: with a carton of 2 oz they go, of 5 lb not
    const light = box('8 in', '13 in', '5 in', { id: 'light', mass: parseMass('0.1 oz') });
    const lead = box('8 in', '13 in', '5 in', { id: 'lead', mass: parseMass('5 lb') });
    const small = box('8 in', '12.5 in', '5 in', { id: 'small' });
    const { containers: found } = asked([heavy], only(lead, small, light));
    expect(found.map(({ container: { id } }) => id)).toEqual(['light', 'lead', 'small']);
    const { containers: none, plan: noPlan, planWhy: noWhy } = asked([heavy], only(lead));
    expect([noPlan, noWhy]).toEqual([null, null]);
    expect(none.map(({ why, cost, isChosen }) => [why.en, cost, isChosen])).toEqual([
      ['The pieces fit, but no service takes it', null, false],
    ]);
    expect(none[0]?.services).toContainEqual({
      service: 'by-weight',
      why: {
        // 319.6 oz, 80 oz and 0.1 oz
        en: 'Expected to weigh 399.7 oz; it takes 20 lb at most',
        es: 'Se espera que pese 399.7 oz; admite 20 lb como máximo',
      },
    });
  });
});

describe('what fits: how the pieces lie', () => {
  const sides = (container: Container) =>
    [container.inside.width, container.inside.length, container.inside.depth].map((side) =>
      side === undefined ? 0 : toMillimetres(side),
    );

  it.each<[string, Container, readonly number[], number]>([
    ['along it', box('8 in', '13 in', '5 in'), [200, 320, 110], 1],
    ['across it', box('13 in', '8 in', '5 in'), [320, 200, 110], 1],
  ])('in a carton %s, with what room is left', (_, container, lying, piles) => {
    const { stack, fit } = inIt([SHOES], container);
    expect([stack.across, stack.along, stack.thickness]).toEqual(
      lying.map((side) => expect.closeTo(side, 6) as number),
    );
    expect(stack.piles).toBe(piles);
    const [width = 0, length = 0, depth = 0] = sides(container);
    expect(width - stack.across).toBeCloseTo(fit.slack.width, 6);
    expect(length - stack.along).toBeCloseTo(fit.slack.length, 6);
    expect(depth - stack.thickness).toBeCloseTo(fit.slack.thickness, 6);
  });

  it('in a pouch as it is itself, whatever it takes from the film', () => {
    const film = CONTAINERS.get('pouch-large')!;
    const { width, length } = film.inside;
    for (const one of [film, { ...film, inside: { width: length, length: width } }]) {
      const { stack, fit } = inIt([SHOES], one);
      expect(fit.verdict).toBe('easy');
      const lying = [stack.across, stack.along].map(Math.round);
      expect(lying.toSorted()).toEqual([200, 320]);
      expect([stack.thickness, stack.piles]).toEqual([110, 1]);
      expect(lying[0] === 320).toBe(fit.turned);
    }
  });

  it('beside each other in a carton: what all of them take up', () => {
    const wide = box('16 in', '13 in', '5 in');
    const { stack, fit } = inIt([SHOES, { ...SHOES, sku: 'H2' }], wide);
    expect(fit.verdict).toBe('easy');
    expect(stack.piles).toBe(2);
    // 2 x 200 mm by 320 mm, 110 mm high
    expect([stack.across, stack.along, stack.thickness]).toEqual(
      [400, 320, 110].map((side) => expect.closeTo(side, 3) as number),
    );
  });

  /** A carton so many mm deep, wide enough for any fold. */
  const deep = (depth: number) => {
    const inside = { ...box('24 in', '30 in', '1 in').inside, depth: lengthFromMillimetres(depth) };
    return box('24 in', '30 in', '1 in', { inside, outside: inside });
  };
  const lies = (one: Piece, depth: number) => {
    const { fit, stack, folds } = inIt([one], deep(depth));
    // what is left of the depth is what is told to be left
    expect(depth - stack.thickness).toBeCloseTo(fit.slack.thickness, 4);
    const { thickness, pressedThickness } = folds[0]!.block;
    return { verdict: fit.verdict, limit: fit.limit, at: stack.thickness, thickness, pressedThickness };
  };

  it('at rest where it closes so, pressed where it only closes when pressed or not even then', () => {
    const sweater = piece('S1', 'sweater');
    const { thickness, pressedThickness } = lies(sweater, 150);
    expect(pressedThickness).toBeLessThan(thickness);
    expect(lies(sweater, thickness + 1)).toMatchObject({ verdict: 'easy', at: thickness });
    expect(lies(sweater, pressedThickness + 1)).toMatchObject({ verdict: 'snug', at: pressedThickness });
    expect(lies(sweater, 3)).toMatchObject({ verdict: 'no', at: pressedThickness });
  });

  it('at rest where they must not be pressed, whether that would help or not', () => {
    // leather
    const jacket = piece('J1', 'jacket');
    const { thickness, pressedThickness } = lies(jacket, 150);
    expect(pressedThickness).toBeLessThan(thickness);
    const between = (thickness + pressedThickness) / 2;
    expect(lies(jacket, between)).toMatchObject({ verdict: 'no', limit: 'must-not-press', at: thickness });
    expect(lies(jacket, 3)).toMatchObject({ verdict: 'no', limit: 'thickness', at: thickness });
  });
});

describe('what fits: what is left out, and the plan', () => {
  it('names the containers that were not looked at, and why', () => {
    const { leftOut, containers } = asked([TEE], { ...shop, outOfStock: ['pouch-middle', 'gone'] }, ['pouch-small']);
    expect(leftOut).toEqual([
      {
        name: { en: 'pouch-small', es: 'pouch-small' },
        why: { en: 'Left out for this order', es: 'Descartado para este pedido' },
      },
      { name: { en: 'pouch-middle', es: 'pouch-middle' }, why: { en: 'Out of stock', es: 'Agotado' } },
    ]);
    expect(containers.map(({ container: { id } }) => id)).not.toContain('pouch-small');
    expect(containers.map(({ container: { id } }) => id)).not.toContain('pouch-middle');
    expect(asked([TEE]).leftOut).toEqual([]);
  });

  it('is none of the containers where the cheapest is to divide them, and each says what it costs more', () => {
    const inside = box('8 in', '13 in', '5 in');
    const { containers, plan, planWhy } = asked([SHOES, { ...SHOES, sku: 'H2' }], only(inside));
    expect(plan?.parcels).toHaveLength(2);
    expect(containers.map(({ isChosen }) => isChosen)).toEqual([false]);
    expect(containers[0]?.why.en).toMatch(/^Too tight/);
    expect(planWhy?.en).toBe('No one container takes all the pieces: 2 parcels.');
    expect(planWhy?.es).toBe('Ningún embalaje admite todas las prendas: 2 paquetes.');
  });

  it('is none of the containers either where one takes them all and dividing them is cheaper', () => {
    // 300 g each are below 12 oz, 5.20; both are above 1 lb, and go by volume only: 13.90
    const heavy = ['T1', 'T2'].map((sku) => ({ ...TEE, sku, mass: massFromGrams(300) }));
    const services = CARD.services.filter(({ id }) => id === 'light' || id === 'cubic-box');
    const two = only(CONTAINERS.get('pouch-small')!, CONTAINERS.get('carton-large')!);
    const { containers, plan, planWhy } = asked(heavy, {
      ...two,
      rates: { cards: [{ ...CARD, services }], places: () => null },
    });
    expect(plan?.parcels.map(({ container: { id } }) => id)).toEqual(['pouch-small', 'pouch-small']);
    expect(containers.map(({ container: { id }, isChosen }) => [id, isChosen])).toEqual([
      ['carton-large', false],
      ['pouch-small', false],
    ]);
    const more = Math.round(containers[0]!.cost!.total - plan!.cost.total);
    expect(more).toBeGreaterThan(100);
    expect(containers[0]?.why.en).toBe(`Costs $${(more / 100).toFixed(2)} more`);
    expect(planWhy?.en).toBe(`In 2 parcels it saves $${(more / 100).toFixed(2)} against carton-large.`);
  });

  it('is proven, or has the least that any plan costs', () => {
    const proven = asked([TEE]).plan;
    expect(proven).toMatchObject({ proven: true });
    expect(Object.keys(proven!).toSorted()).toEqual(['cost', 'parcels', 'proven']);
    const pieces = Array.from({ length: 11 }, (_, index) => ({ ...TEE, sku: `T${String(index)}` }));
    const large = asked(pieces, only(CONTAINERS.get('carton-large')!)).plan;
    expect(large?.proven).toBe(false);
    expect(large?.lowerBound).toBeLessThanOrEqual(large!.cost.total);
    expect(large?.lowerBound).toBeGreaterThan(0);
  });

  it('is none where nothing takes them, and every container says why', () => {
    const oar = piece('O1', 'shoes', { measured: { length: 2000 } });
    const { containers, plan, planWhy } = asked([oar], {
      ...shop,
      preferences: { wrapAbove: { value: money(1, 'USD'), wraps: [] } },
    });
    expect([plan, planWhy]).toEqual([null, null]);
    expect(containers).toHaveLength(CONTAINERS.size);
    expect(containers.every(({ why, isChosen }) => why.en.startsWith('Too tight: ') && !isChosen)).toBe(true);
  });

  it('is none where no wrap will do, and there is nothing to tell', () => {
    const dear = { ...TEE, value: money(9000, 'USD') };
    const velvet = { ...shop, preferences: { wrapAbove: { value: money(8000, 'USD'), wraps: ['velvet'] } } };
    expect(asked([dear], velvet)).toMatchObject({ containers: [], plan: null, planWhy: null });
  });
});
