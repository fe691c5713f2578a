import type { Container } from '#shared/fitting/types.ts';
import type { Fold, FoldStep } from '#shared/folding/types.ts';
import type { Order, OrderPlan, ParcelPlan, PlannedPiece } from '#shared/planning/types.ts';
import { IDLE } from '#shared/run/initial.ts';
import { transition } from '#shared/run/transition.ts';
import type { RunFacts, RunInput, RunState } from '#shared/run/types.ts';
import { lengthFromDecimal } from '#shared/units/length.ts';
import { massFromDecimal, toGrams, ZERO_MASS } from '#shared/units/mass.ts';
import { money } from '#shared/units/money.ts';
import type { Command } from '#shared/run/commands.ts';
import type { Reading } from '#shared/weighing/types.ts';

/** A small invented order and plan for tests of the run; the sums behind a plan are tested elsewhere. */
const inch = (text: string) => lengthFromDecimal(text, 'in');
export const ounces = (text: string) => massFromDecimal(text, 'oz');
const words = (text: string) => ({ en: text, es: text });

function step(text: string): FoldStep {
  const bounds = { x: 0, y: 0, width: 1, height: 1 };
  const drawing = { still: [], moving: [], landing: [], bounds, endsAs: { width: 1, length: 1 } };
  return { words: words(text), spoken: words(text), drawing };
}

function fold(recipe: string, steps: number): Fold {
  return {
    recipe,
    recipeName: words(recipe),
    steps: Array.from({ length: steps }, (_, index) => step(`step ${String(index + 1)}`)),
    block: {
      width: 220,
      length: 280,
      thickness: 20,
      pressedThickness: 14,
      thicknessSd: 2,
      layers: 8,
      soft: true,
      mayPress: true,
    },
    assumed: [],
  };
}

export function container(id: string): Container {
  const size = { width: inch('10'), length: inch('13') };
  return {
    id,
    name: words(id),
    type: 'pouch',
    inside: size,
    outside: size,
    closing: inch('1'),
    wall: inch('0'),
    mass: ounces('0.4'),
    massSd: ounces('0.01'),
    cost: money(12, 'USD'),
    seconds: 20,
    cautions: [],
  };
}

export function plannedPiece(sku: string, recipe = 'flat', steps = 2): PlannedPiece {
  return {
    piece: { sku, title: `piece ${sku}`, kind: 't-shirt' },
    fold: fold(recipe, steps),
    mass: { mean: 200, sd: 8 },
  };
}

/** A parcel of a service with brackets at 8, 12 and 16 oz, planned for 16 oz, expected to weigh 15 oz. */
export function parcel(skus: readonly string[], containerId = 'pouch-a', recipe = 'flat'): ParcelPlan {
  const brackets = [
    { ceiling: ounces('8'), price: money(410, 'USD') },
    { ceiling: ounces('12'), price: money(465, 'USD') },
    { ceiling: ounces('16'), price: money(625, 'USD') },
    { ceiling: ounces('32'), price: money(805, 'USD') },
  ];
  const cost = { currency: 'USD', postage: 625, materials: 20, labour: 80, risk: 5, total: 730 };
  return {
    pieces: skus.map((sku) => plannedPiece(sku, recipe)),
    container: container(containerId),
    wrap: {
      id: 'none',
      name: words('no wrap'),
      massPerPiece: ZERO_MASS,
      costPerPiece: money(0, 'USD'),
      secondsPerPiece: 0,
      thickness: 0,
    },
    fit: {
      verdict: 'easy',
      probability: 0.99,
      slack: { width: 20, length: 20, thickness: 10 },
      turned: false,
      filled: { width: 254, length: 330, thickness: 30 },
      limit: 'width',
    },
    mass: { mean: toGrams(ounces('15')), sd: 20 },
    toCome: { mass: ounces('0.1'), plusMinus: ounces('0.03') },
    offer: {
      service: 'light-parcel',
      carrier: 'merrow-post',
      price: money(625, 'USD'),
      rule: 'weight-bracket',
      zone: '4',
      billedMass: ounces('16'),
      bracketCeiling: ounces('16'),
      nextPrice: money(805, 'USD'),
      cubicTier: null,
      surcharges: [],
      reasons: [],
    },
    prices: {
      service: 'light-parcel',
      carrier: 'merrow-post',
      rule: 'weight-bracket',
      zone: '4',
      cardFrom: '2026-01-01',
      steps: brackets,
    },
    otherServices: [],
    cost,
  };
}

export function order(skus: readonly { readonly sku: string; readonly count: number }[]): Order {
  return {
    id: '1047',
    pieces: skus,
    buyer: 'A. Buyer',
    address: ['1 Any Street', 'Anytown'],
    to: { postcode: '55802', country: 'US' },
    shipBy: '2026-11-25T22:30:00.000Z',
  };
}

export function plan(parcels: readonly ParcelPlan[], alternatives: OrderPlan['alternatives'] = []): OrderPlan {
  const cost = parcels[0]?.cost ?? { currency: 'USD', postage: 0, materials: 0, labour: 0, risk: 0, total: 0 };
  return { order: '1047', parcels, cost, alternatives, whyNot: [], proven: true };
}

export function reading(text: string, change: Partial<Reading> = {}): Reading {
  return {
    mass: ounces(text),
    unit: 'oz',
    places: 1,
    division: ounces('0.1'),
    stability: 'still',
    net: false,
    condition: 'ok',
    at: 1000,
    ...change,
  };
}

export const FACTS: RunFacts = {
  now: 100_000,
  labelUsedBefore: false,
  weigh: { division: ounces('0.1'), accuracy: { kind: 'own', plusMinus: ounces('0.05') }, drift: ounces('0.02') },
};

export const command = (name: Command, by: 'touch' | 'key' | 'voice' | 'scan' = 'touch'): RunInput => ({
  type: 'command',
  command: name,
  by,
});

export const pieceScan = (sku: string): RunInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'piece', text: sku, sku },
});

export const labelScan = (number: string, postcode: string | null): RunInput => ({
  type: 'scan',
  by: 'scan',
  meaning: { means: 'label', text: number, number, postcode },
});

export const taken = (parcels: readonly ParcelPlan[], alternatives: OrderPlan['alternatives'] = []): RunInput => {
  const skus = parcels.flatMap((each) => each.pieces.map((planned) => planned.piece.sku));
  const lines = [...new Set(skus)].map((sku) => ({ sku, count: skus.filter((each) => each === sku).length }));
  return { type: 'order-taken', run: 'run-1', order: order(lines), plan: plan(parcels, alternatives) };
};

/** The state after a row of inputs, a second apart. */
export function after(inputs: readonly RunInput[], from: RunState = IDLE, facts: RunFacts = FACTS): RunState {
  let state = from;
  let { now } = facts;
  for (const input of inputs) {
    now += 1000;
    ({ state } = transition(state, input, { ...facts, now }));
  }
  return state;
}
