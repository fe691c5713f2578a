import { describe, expect, it } from 'vitest';
import { bySku, CARD, CONTAINERS, DAY, orderOf, piece, smallShop } from './small-shop.ts';
import type { Container } from '#shared/fitting/types.ts';
import type { Piece } from '#shared/garments/types.ts';
import { isPlanError, type PlanErrorCode } from '#shared/planning/plan-error.ts';
import { planOrder } from '#shared/planning/plan-order.ts';
import type { Order, OrderPlan } from '#shared/planning/types.ts';
import { parseLength } from '#shared/units/length.ts';
import { massFromGrams, toGrams } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';

const shop = smallShop();

function plan(pieces: readonly Piece[], order: Partial<Order> = {}, without: readonly string[] = []): OrderPlan {
  return planOrder({ order: orderOf(pieces, order), pieces: bySku(pieces), shop, day: DAY, without });
}

function failure(run: () => unknown): { readonly code: PlanErrorCode; readonly held: number } | null {
  try {
    run();
    return null;
  } catch (error) {
    if (!isPlanError(error)) throw error;
    return { code: error.code, held: error.whyNot.length };
  }
}

const TEE = piece('T1', 't-shirt', { size: 'M', mass: massFromGrams(160) });
const SWEATER = piece('S1', 'sweater');
const SHOES = piece('H1', 'shoes');

describe('planOrder', () => {
  it('adds container, wrap and what comes after the weighing to the pieces', () => {
    const [parcel] = plan([TEE]).parcels;
    const pouch = CONTAINERS.get('pouch-small')!;
    expect(parcel?.container.id).toBe('pouch-small');
    expect(parcel?.mass.mean).toBeCloseTo(160 + toGrams(pouch.mass) + 0.1 * 28.349523125, 9);
    expect(parcel?.toCome.mass).toBe(shop.additions[0]?.mass);
  });

  it('gives the offer of the service it counted on, at the expected mass', () => {
    for (const pieces of [[TEE], [SWEATER], [SHOES], [TEE, SHOES]]) {
      for (const parcel of plan(pieces).parcels) {
        expect(parcel.offer.service).toBe(parcel.prices.service);
        const step = parcel.prices.steps.find(({ ceiling }) => toGrams(ceiling) >= parcel.mass.mean);
        expect(parcel.offer.price).toEqual(step?.price);
      }
    }
  });

  it('adds up its cost', () => {
    const { cost, parcels } = plan([TEE, SWEATER, SHOES]);
    expect(cost.total).toBeCloseTo(cost.postage + cost.materials + cost.labour + cost.risk, 9);
    expect(parcels.reduce((sum, parcel) => sum + parcel.cost.total, 0)).toBeCloseTo(cost.total, 9);
  });

  it('lists other containers cheapest first, none of them cheaper than the plan', () => {
    const { cost, alternatives } = plan([TEE]);
    const totals = alternatives.map((each) => each.cost.total);
    expect(totals.length).toBeGreaterThan(2);
    expect(totals).toEqual(totals.toSorted((a, b) => a - b));
    expect(totals[0]).toBeGreaterThanOrEqual(cost.total);
  });

  it('says something about every container and service that it did not choose', () => {
    const { parcels, whyNot } = plan([TEE]);
    const [chosen] = parcels;
    for (const id of CONTAINERS.keys()) {
      if (id !== chosen?.container.id)
        expect(
          whyNot.some((each) => each.container === id),
          id,
        ).toBe(true);
    }
    const inChosen = whyNot.filter((each) => each.container === chosen?.container.id).map((each) => each.service);
    const others = CARD.services.map((service) => service.id).filter((id) => id !== chosen?.offer.service);
    expect(inChosen.toSorted()).toEqual(others.toSorted());
  });

  it('measures how much too tight a container is', () => {
    const tooTight = plan([SHOES]).whyNot.find((each) => each.container === 'carton-small');
    // shoes 320 mm long (12.6 in) in a carton of 12 in
    expect(tooTight).toMatchObject({ code: 'too-tight', values: { limit: 'length', by: '0.60 in' } });
  });

  it('plans anew without a container that was too tight', () => {
    const first = plan([TEE]);
    const next = plan([TEE], {}, ['pouch-small']);
    expect(next.parcels[0]?.container.id).toBe(first.alternatives[0]?.parcels[0]?.container.id);
    expect(next.cost.total).toBeCloseTo(first.alternatives[0]?.cost.total ?? 0, 9);
    expect(next.whyNot).toContainEqual({ container: 'pouch-small', code: 'left-out', values: {} });
  });

  it('divides an order that no one container takes, each piece in exactly one parcel', () => {
    const pieces = ['A', 'B', 'C', 'D', 'E', 'F'].map((sku) => piece(sku, 'shoes'));
    const { parcels, alternatives } = plan(pieces);
    expect(parcels.length).toBeGreaterThan(1);
    const packed = parcels.flatMap((parcel) => parcel.pieces.map((each) => each.piece.sku));
    expect(packed.toSorted()).toEqual(['A', 'B', 'C', 'D', 'E', 'F']);
    expect(alternatives).toEqual([]);
  });

  it('packs a piece as often as it was bought', () => {
    const twice = plan([TEE], { pieces: [{ sku: 'T1', count: 2 }] });
    const packed = twice.parcels.flatMap((parcel) => parcel.pieces.map((each) => each.piece.sku));
    expect(packed).toEqual(['T1', 'T1']);
  });

  it('keeps to the service that was paid for, or a cheaper one as quick', () => {
    expect(plan([TEE]).parcels[0]?.offer.service).toBe('light');
    // light takes up to 5 days, the paid one 3: the cheapest of the quick ones is used instead
    const quick = plan([TEE], { service: 'by-weight' });
    expect(quick.parcels[0]?.offer.service).toBe('cubic-soft');
    expect(quick.whyNot).toContainEqual(expect.objectContaining({ service: 'light', code: 'slower-than-paid' }));
    // the slow one is paid: any quicker and cheaper one would do, and light is cheapest
    expect(plan([TEE], { service: 'light' }).parcels[0]?.offer.service).toBe('light');
  });

  it('falls back on any service where the one that was paid for cannot be met', () => {
    const unknown = plan([TEE], { service: 'by-balloon' });
    expect(unknown.cost.total).toBe(plan([TEE]).cost.total);
    // a flat-fee card takes no shoes: another service does
    expect(plan([SHOES], { service: 'flat-card' }).parcels).toHaveLength(1);
  });

  it('prefers the lesser work, then the smaller container, among plans of one cost', () => {
    const nothing = money(0, 'USD');
    const free = (id: string, width: string, length: string): [string, Container] => {
      const size = { width: parseLength(width), length: parseLength(length) };
      const pouch = CONTAINERS.get('pouch-large')!;
      return [id, { ...pouch, id, inside: size, outside: size, cost: nothing, seconds: 0 }];
    };
    const idle = smallShop({
      containers: new Map([
        free('huge', '17 in', '22 in'),
        free('middle', '16.5 in', '21.5 in'),
        free('small', '9 in', '12 in'),
      ]),
      labour: { perHour: nothing, repackSeconds: 0 },
    });
    const [parcel] = planOrder({ order: orderOf([TEE]), pieces: bySku([TEE]), shop: idle, day: DAY }).parcels;
    expect(parcel?.container.id).toBe('middle');
    expect(parcel?.pieces[0]?.fold.recipe).toBe('wide');
  });

  it('marks a plan of more than ten pieces as not proven, with a bound that holds', () => {
    const pieces = Array.from({ length: 14 }, (_, index) => piece(`T${String(index)}`, 't-shirt'));
    const large = plan(pieces);
    expect(large.proven).toBe(false);
    expect(large.lowerBound).toBeGreaterThan(0);
    expect(large.lowerBound).toBeLessThanOrEqual(large.cost.total);
    const packed = large.parcels.flatMap((parcel) => parcel.pieces.map((each) => each.piece.sku));
    expect(packed.toSorted()).toEqual(pieces.map(({ sku }) => sku).toSorted());
  });

  it.each<[string, PlanErrorCode, () => unknown]>([
    ['no piece', 'no-pieces', () => plan([])],
    ['60 pieces', 'too-many-pieces', () => plan([TEE], { pieces: [{ sku: 'T1', count: 60 }] })],
    ['a piece that nobody entered', 'unknown-piece', () => plan([TEE], { pieces: [{ sku: 'X9', count: 1 }] })],
    ['a kind that the shop does not know', 'unknown-kind', () => plan([piece('K1', 'sail')])],
  ])('refuses an order of %s', (_, code, run) => {
    expect(failure(run)?.code).toBe(code);
  });

  it('says that no service takes what fits', () => {
    const anvil = piece('N1', 'shoes', { mass: massFromGrams(15_000) });
    try {
      plan([anvil]);
      expect.unreachable();
    } catch (error) {
      if (!isPlanError(error)) throw error;
      const held = error.whyNot.filter(({ service }) => service === undefined).map(({ code }) => code);
      expect(held).toHaveLength(CONTAINERS.size);
      expect(held).toContain('no-service');
      expect(error.whyNot).toContainEqual(expect.objectContaining({ service: 'by-weight', code: 'too-heavy' }));
    }
  });

  it('says what was held against every container when nothing fits', () => {
    const oar = piece('O1', 'shoes', { measured: { length: 2000 } });
    expect(failure(() => plan([oar]))).toEqual({ code: 'nothing-fits', held: CONTAINERS.size });
  });

  it('says apart from that that no rate card is in force on the day, which is no fault of the order', () => {
    const cards = shop.rates.cards.map((card) => ({ ...card, from: '2999-01-01' }));
    const early = { ...shop, rates: { ...shop.rates, cards } };
    const request = { order: orderOf([TEE]), pieces: bySku([TEE]), shop: early };
    expect(failure(() => planOrder({ ...request, day: '2998-12-31' }))?.code).toBe('no-rates');
    expect(failure(() => planOrder({ ...request, day: '2999-01-01' }))).toBeNull();
  });
});
